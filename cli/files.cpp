#include "files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "coldtally/error.hpp"

namespace coldtally::cli {

namespace {

constexpr std::size_t piece = 1 << 16;

[[noreturn]] void fail(const std::string& path, int why) {
    throw Error(Code::machine, (path == "-" ? std::string("standard input") : path) + ": cannot be read: " + std::strerror(why));
}

struct Descriptor {
    int number;
    bool own;
    ~Descriptor() {
        if (own) ::close(number);
    }
};

}  // namespace

std::string read_file(const std::string& path) {
    const bool standard = path == "-";
    const Descriptor file{standard ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC), !standard};
    if (file.number < 0) fail(path, errno);

    std::string content;
    struct stat about;
    if (::fstat(file.number, &about) == 0 && about.st_size > 0) content.reserve(static_cast<std::size_t>(about.st_size) + piece);
    std::size_t used = 0;
    while (true) {
        content.resize(used + piece);
        const ssize_t count = ::read(file.number, content.data() + used, piece);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) fail(path, errno);
        if (count == 0) break;
        used += static_cast<std::size_t>(count);
    }
    content.resize(used);
    return content;
}

std::string file_name(const std::string& path) {
    return path == "-" ? "standard input" : std::filesystem::path(path).filename().string();
}

}  // namespace coldtally::cli
