// Finds the files that an orchard names.
#include "orchard/orchard.h"

namespace winterfolio {

std::string path_beside(const Orchard& orchard, const std::string& file) {
  if (orchard.folder.empty() || orchard.folder == ".") return file;
  return orchard.folder.back() == '/' ? orchard.folder + file : orchard.folder + "/" + file;
}

}  // namespace winterfolio
