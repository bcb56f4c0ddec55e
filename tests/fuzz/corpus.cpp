// Corpus: every input that is kept, seeds and finds, once more through its target; without a fuzzer.
//
// corpus FOLDER          with a folder for each target
// corpus TARGET FILE...  some inputs alone
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <set>
#include <string>

#include "fuzz/targets.hpp"

namespace {

namespace fs = std::filesystem;

bool run(const fuzz::Target& target, const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    try {
        fuzz::given = bytes;
        target.run(fuzz::given);
        return true;
    } catch (const std::exception& e) {
        std::cout << target.name << ": " << file.filename().string() << ": " << e.what() << "\n";
        return false;
    }
}

}  // namespace

int main(int count, char** words) {
    if (count < 2) return 2;
    int failed = 0, inputs = 0;
    if (count > 2) {
        for (const auto& target : fuzz::targets)
            if (std::strcmp(target.name, words[1]) == 0)
                for (int i = 2; i < count; ++i, ++inputs) failed += !run(target, words[i]);
        return failed || !inputs;
    }
    std::set<std::string> folders;
    for (const auto& entry : fs::directory_iterator(words[1])) folders.insert(entry.path().filename().string());
    for (const auto& target : fuzz::targets) {
        int of_target = 0;
        if (folders.erase(target.name))
            for (const auto& entry : fs::directory_iterator(fs::path(words[1]) / target.name)) {
                failed += !run(target, entry.path());
                ++of_target;
            }
        if (of_target == 0) std::cout << target.name << ": no inputs\n", ++failed;
        inputs += of_target;
    }
    for (const auto& folder : folders) std::cout << folder << ": no target of this name\n", ++failed;
    std::cout << inputs << " inputs, " << failed << " failed\n";
    return failed ? 1 : 0;
}
