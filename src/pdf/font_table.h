// The big-endian numbers of a font file's table. Reading past its end is a damaged font, said in
// words for the person at the keyboard.
#pragma once

#include <fmt/format.h>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "pdf/pdf_error.h"

namespace winterfolio {

/// A view of one table, or of the whole file. The bytes and the file's name outlive it.
class FontTable {
 public:
  FontTable(std::string_view bytes, const std::string& file) : bytes_(bytes), file_(&file) {}

  unsigned u8(std::size_t at) const { return byte(at); }
  unsigned u16(std::size_t at) const { return byte(at) << 8 | byte(at + 1); }
  int i16(std::size_t at) const { return static_cast<std::int16_t>(u16(at)); }
  std::uint32_t u32(std::size_t at) const {
    return static_cast<std::uint32_t>(u16(at)) << 16 | u16(at + 2);
  }
  std::string_view from(std::size_t at, std::size_t length) const {
    if (at > bytes_.size() || length > bytes_.size() - at) damaged();
    return bytes_.substr(at, length);
  }
  FontTable part(std::size_t at, std::size_t length) const { return {from(at, length), *file_}; }
  std::string_view bytes() const { return bytes_; }
  std::size_t size() const { return bytes_.size(); }

  [[noreturn]] void damaged() const {
    throw PdfError(fmt::format("the font file {} is damaged or not TrueType", *file_),
                   "install the package fonts-lato anew");
  }

 private:
  unsigned byte(std::size_t at) const {
    if (at >= bytes_.size()) damaged();
    return static_cast<unsigned char>(bytes_[at]);
  }

  std::string_view bytes_;
  const std::string* file_;
};

}  // namespace winterfolio
