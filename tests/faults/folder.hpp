// A folder of its own that is removed with all in it; in memory where the system has such a place.
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace faults {

class Folder {
public:
    Folder() {
        const std::filesystem::path memory = "/dev/shm";
        std::string name = ((std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path()) /
                            "coldtally-faults-XXXXXX")
                               .string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder: " + name);
        path_ = std::filesystem::canonical(name);
    }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

}  // namespace faults
