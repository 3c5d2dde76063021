// What the fuzzer has found interesting so far, read again on every test run, each also bent in a
// few ways.
#include <algorithm>
#include <filesystem>
#include <random>
#include <vector>

#include "fuzz/temperature_reader_fuzz.cpp"
#include "support/catch.h"
#include "support/files.h"

namespace {

std::vector<std::string> corpus() {
  std::vector<std::string> inputs;
  for (const auto& entry :
       std::filesystem::directory_iterator(test::source_dir() + "/tests/fuzz/corpus")) {
    inputs.push_back(test::read_file(entry.path().string()));
  }
  std::sort(inputs.begin(), inputs.end());
  return inputs;
}

void feed(const std::string& input) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
}

}  // namespace

TEST_CASE("The fuzzer's corpus is answered with readings or messages") {
  const std::vector<std::string> inputs = corpus();
  CHECK(inputs.size() > 50);
  for (const std::string& input : inputs) feed(input);
}

TEST_CASE("So are inputs bent from it: bytes changed, pieces cut out, halves put together") {
  const std::vector<std::string> inputs = corpus();
  std::mt19937 random(1);
  const auto below = [&](std::size_t bound) {
    return static_cast<std::size_t>(random()) % std::max<std::size_t>(bound, 1);
  };
  for (int i = 0; i < 400; ++i) {
    std::string input = inputs[below(inputs.size())];
    const std::string& other = inputs[below(inputs.size())];
    switch (below(4)) {
      case 0:
        input.resize(below(input.size()));
        break;
      case 1:
        input = input.substr(0, below(input.size())) + other.substr(below(other.size()));
        break;
      case 2:
        input.erase(below(input.size()), below(16));
        break;
      default:
        for (std::size_t k = below(8) + 1; k-- > 0 && !input.empty();)
          input[below(input.size())] = static_cast<char>(below(256));
    }
    feed(input);
  }
}
