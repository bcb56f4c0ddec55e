// A file name in a directory of its own that is removed with everything in it.
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace tests {

class TemporaryFile {
public:
    TemporaryFile() {
        // in memory where the system has such a place: a post waits for the disk, and thousands of tests need not
        const std::filesystem::path memory = "/dev/shm";
        std::string name = ((std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path()) /
                            "coldtally-test-XXXXXX")
                               .string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary directory: " + name);
        directory_ = name;
    }
    ~TemporaryFile() {
        std::error_code ignored;
        std::filesystem::remove_all(directory_, ignored);
    }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    std::string path() const { return directory_ / "ledger.coldtally"; }

private:
    std::filesystem::path directory_;
};

}  // namespace tests
