#include "files.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdint>
#include <cstring>
#include <filesystem>

#include "coldtally/error.hpp"

namespace coldtally::cli {

namespace {

constexpr std::size_t piece = 1 << 16, large = 1 << 22;

[[noreturn]] void fail(const std::string& path, int why) {
    throw Error(Code::machine,
                (path == "-" ? std::string("standard input") : path) + ": cannot be read: " + std::strerror(why));
}

struct Descriptor {
    int number;
    bool own;
    ~Descriptor() {
        if (own && number >= 0) ::close(number);
    }
};

/// Asks for large pages: to get memory for a file of many megabytes 4 KiB at a time takes longer than to read it. A
/// system that has none gives small ones.
void expect_much(const std::string& content) {
    const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
    const auto from = reinterpret_cast<std::uintptr_t>(content.data()) / page * page;
    const auto until = reinterpret_cast<std::uintptr_t>(content.data() + content.capacity());
    ::madvise(reinterpret_cast<void*>(from), until - from, MADV_HUGEPAGE);
}

}  // namespace

std::string read_file(const std::string& path) {
    const bool standard = path == "-";
    const Descriptor file{standard ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC), !standard};
    if (file.number < 0) fail(path, errno);

    std::string content;
    struct stat about;
    if (::fstat(file.number, &about) == 0 && about.st_size > 0) {
        content.reserve(static_cast<std::size_t>(about.st_size) + piece);
        if (content.capacity() > large) expect_much(content);
    }
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

void write_new_file(const std::string& path, const std::string& content) {
    const Descriptor file{::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644), true};
    if (file.number < 0 && errno == EEXIST)
        throw Error(Code::ledger_exists, path + ": is there already, and stays as it is; name another file");
    const auto cannot = [&] {
        throw Error(Code::machine, path + ": cannot be written: " + std::strerror(errno));
    };
    if (file.number < 0) cannot();
    for (std::size_t done = 0; done < content.size();) {
        const ssize_t count = ::write(file.number, content.data() + done, content.size() - done);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) cannot();
        done += static_cast<std::size_t>(count);
    }
    if (::fsync(file.number) != 0) cannot();
}

}  // namespace coldtally::cli
