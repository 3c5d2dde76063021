// What keeps a PDF from being made, in words for the person at the keyboard: a font that is not
// there, a library that gives up. Files that cannot be written are base/file_output.h's.
#pragma once

#include <stdexcept>
#include <string>

namespace winterfolio {

class PdfError : public std::runtime_error {
 public:
  explicit PdfError(const std::string& message, std::string mend = {})
      : std::runtime_error(message), mend_(std::move(mend)) {}
  const std::string& mend() const { return mend_; }  ///< what to do about it; may be empty

 private:
  std::string mend_;
};

}  // namespace winterfolio
