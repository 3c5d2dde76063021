// An orchard while it is being read: what was taken from the file so far, and where in the file
// each part of it stands.
#pragma once

#include <vector>

#include "orchard/orchard.h"
#include "readers/yaml_document.h"

namespace winterfolio {

/// The lists of nodes run beside the lists of the orchard: nodes of trees[i] are tree_nodes[i], and
/// so on. Nodes belong to the document, which must outlive the draft.
struct Draft {
  Orchard orchard;
  bool lengths_given = false;
  bool latitude_read = false;
  const YamlNode* place = nullptr;   ///< the map under 'orchard:'
  const YamlNode* winter = nullptr;  ///< the map under 'winter:'
  std::vector<const YamlNode*> temperature_nodes;
  std::vector<const YamlNode*> past_winter_nodes;
  std::vector<const YamlNode*> block_nodes;
  std::vector<const YamlNode*> cultivar_nodes;
  std::vector<const YamlNode*> tree_nodes;
  std::vector<const YamlNode*> workday_nodes;
};

}  // namespace winterfolio
