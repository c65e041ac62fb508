/// @file
/// Runs a fuzz target without a fuzzer: every file below the given folders, and each of them changed in a
/// fixed number of fixed ways. Deterministic, so that it can be part of the tests.
///
///     replay CHANGES PATH...
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include "mutate.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_below(const fs::path &path) {
  if (!fs::is_directory(path)) {
    return {path};
  }
  std::vector<fs::path> files;
  for (const auto &entry : fs::recursive_directory_iterator(path)) {
    if (entry.is_regular_file()) {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

void run(const std::string &text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t *>(text.data()), text.size());
}

} // namespace

int main(int count, char **arguments) {
  if (count < 3) {
    std::cerr << "usage: " << arguments[0] << " CHANGES PATH...\n";
    return 2;
  }
  const auto changes = static_cast<std::uint32_t>(std::strtoul(arguments[1], nullptr, 10));
  std::size_t inputs = 0;
  for (int i = 2; i < count; ++i) {
    for (const fs::path &path : files_below(arguments[i])) {
      std::ifstream file(path, std::ios::binary);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      run(text);
      std::string walk = text;
      for (std::uint32_t k = 0; k < changes; ++k) {
        // Changes pile up three at a time, then start over from the file.
        walk = cook::fuzz::mutate(k % 3 == 0 ? text : walk, k);
        run(walk);
      }
      inputs += 1 + changes;
    }
  }
  std::cout << inputs << " inputs\n";
  return inputs > 0 ? 0 : 1;
}
