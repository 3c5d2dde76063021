// Pictures of printed pages: made by poppler's pdftoppm, kept as grey PNG files, compared dot by
// dot with a little patience for how edges are smoothed.
#pragma once

#include <zlib.h>

#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "support/files.h"

namespace winterfolio::test {

/// Rows of dots from the top, 0 black to 255 white.
struct Picture {
  std::size_t width = 0;
  std::size_t height = 0;
  std::vector<std::uint8_t> dots;
};

namespace picture_parts {

inline std::uint32_t number_at(const std::string& bytes, std::size_t at) {
  std::uint32_t n = 0;
  for (std::size_t i = 0; i < 4; ++i) n = n << 8 | static_cast<std::uint8_t>(bytes.at(at + i));
  return n;
}

/// PNG's guess for a dot from its left, upper and upper left neighbours (ISO/IEC 15948, 9.4).
inline int nearest_of(int a, int b, int c) {
  const int p = a + b - c, pa = std::abs(p - a), pb = std::abs(p - b), pc = std::abs(p - c);
  if (pa <= pb && pa <= pc) return a;
  return pb <= pc ? b : c;
}

/// Takes the filters off that each row of a PNG names in its first byte.
inline std::vector<std::uint8_t> unfiltered(const std::vector<std::uint8_t>& rows,
                                            std::size_t width, std::size_t height) {
  std::vector<std::uint8_t> dots(width * height);
  for (std::size_t y = 0; y < height; ++y) {
    const std::uint8_t filter = rows[y * (width + 1)];
    for (std::size_t x = 0; x < width; ++x) {
      const auto dot = [&](bool known, std::size_t at) { return known ? int{dots[at]} : 0; };
      const std::size_t at = y * width + x;
      const int left = dot(x > 0, at - 1), above = dot(y > 0, at - width);
      const int corner = dot(x > 0 && y > 0, at - width - 1);
      const int guesses[] = {0, left, above, (left + above) / 2, nearest_of(left, above, corner)};
      if (filter > 4) throw std::runtime_error("a PNG filter that does not exist");
      dots[at] = static_cast<std::uint8_t>(rows[y * (width + 1) + 1 + x] + guesses[filter]);
    }
  }
  return dots;
}

}  // namespace picture_parts

/// Reads a PNG of 8-bit greys, not interlaced: what write_grey_png writes, or a
/// person's own tool.
inline Picture read_grey_png(const std::string& path) {
  using namespace picture_parts;
  const std::string bytes = read_file(path);
  Picture picture;
  std::string packed;
  for (std::size_t at = 8; at + 12 <= bytes.size();) {
    const std::size_t length = number_at(bytes, at);
    const std::string kind = bytes.substr(at + 4, 4);
    if (kind == "IHDR") {
      picture.width = number_at(bytes, at + 8);
      picture.height = number_at(bytes, at + 12);
      if (bytes.at(at + 16) != 8 || bytes.at(at + 17) != 0 || bytes.at(at + 20) != 0)
        throw std::runtime_error(path + " is not a plain grey PNG");
    }
    if (kind == "IDAT") packed += bytes.substr(at + 8, length);
    at += length + 12;
  }
  std::vector<std::uint8_t> rows(picture.height * (picture.width + 1));
  uLongf size = rows.size();
  if (uncompress(rows.data(), &size, reinterpret_cast<const Bytef*>(packed.data()),
                 packed.size()) != Z_OK ||
      size != rows.size())
    throw std::runtime_error(path + " is damaged");
  picture.dots = unfiltered(rows, picture.width, picture.height);
  return picture;
}

/// Writes a PNG of 8-bit greys.
inline void write_grey_png(const std::string& path, const Picture& picture) {
  const auto number = [](std::uint32_t n) {
    std::string four;
    for (int shift = 24; shift >= 0; shift -= 8) four += static_cast<char>(n >> shift & 255u);
    return four;
  };
  const auto chunk = [&](const std::string& kind, const std::string& bytes) {
    const std::string body = kind + bytes;
    const uLong sum =
        crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()));
    return number(static_cast<std::uint32_t>(bytes.size())) + body +
           number(static_cast<std::uint32_t>(sum));
  };
  std::string rows;  // no filter: a zero before each row
  for (std::size_t y = 0; y < picture.height; ++y) {
    rows += '\0';
    rows.append(picture.dots.begin() + static_cast<std::ptrdiff_t>(y * picture.width),
                picture.dots.begin() + static_cast<std::ptrdiff_t>((y + 1) * picture.width));
  }
  uLongf size = compressBound(rows.size());
  std::string packed(size, '\0');
  compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
            reinterpret_cast<const Bytef*>(rows.data()), rows.size(), 9);
  packed.resize(size);
  const std::string head = number(static_cast<std::uint32_t>(picture.width)) +
                           number(static_cast<std::uint32_t>(picture.height)) +
                           std::string("\x08\0\0\0\0", 5);
  std::ofstream(path, std::ios::binary)
      << "\x89PNG\r\n\x1a\n"
      << chunk("IHDR", head) << chunk("IDAT", packed) << chunk("IEND", "");
}

/// The share of dots that differ by more than an eighth of the way from black to white; all of them
/// where the sizes differ.
inline double share_differing(const Picture& a, const Picture& b) {
  if (a.width != b.width || a.height != b.height || a.dots.empty()) return 1.0;
  std::size_t differing = 0;
  for (std::size_t i = 0; i < a.dots.size(); ++i)
    differing += std::abs(int{a.dots[i]} - int{b.dots[i]}) > 32;
  return static_cast<double>(differing) / static_cast<double>(a.dots.size());
}

/// Draws the first page of a PDF, 60 dots an inch; nothing if pdftoppm gives up. `scratch` is a
/// folder.
inline std::optional<Picture> draw_first_page(const std::string& pdf, const std::string& scratch) {
  const std::string to = scratch + "/drawn";
  const std::string line =
      "pdftoppm -r 60 -gray -singlefile '" + pdf + "' '" + to + "' 2>/dev/null";
  if (std::system(line.c_str()) != 0) return std::nullopt;
  // "P5 width height 255", then the dots.
  std::istringstream in(read_file(to + ".pgm"));
  std::string kind;
  Picture picture;
  int most = 0;
  in >> kind >> picture.width >> picture.height >> most;
  if (kind != "P5" || most != 255) return std::nullopt;
  in.get();
  std::string dots(picture.width * picture.height, '\0');
  in.read(dots.data(), static_cast<std::streamsize>(dots.size()));
  picture.dots.assign(dots.begin(), dots.end());
  return picture;
}

inline bool on_debian_12() {
  std::ifstream in("/etc/os-release");
  std::string line;
  bool debian = false, twelve = false;
  while (std::getline(in, line)) {
    debian = debian || line == "ID=debian";
    twelve = twelve || line == "VERSION_ID=\"12\"";
  }
  return debian && twelve;
}

}  // namespace winterfolio::test
