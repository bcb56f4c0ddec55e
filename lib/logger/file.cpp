// Opens a logger's file, so that of a large one no more than a part is held.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "text/limits.hpp"

namespace coldtally {

namespace {

constexpr std::size_t held = 4u << 20;  // of a file up to this size the bytes are held

struct Descriptor {
    int number = -1;
    std::string name;
    bool own = true;
    struct stat opened = {};
    Descriptor() = default;
    Descriptor(const Descriptor&) = delete;
    ~Descriptor() {
        if (own && number >= 0) ::close(number);
    }
    [[noreturn]] void fail(int why) const {
        throw Error(Code::machine, name + ": cannot be read: " + std::strerror(why));
    }

    std::size_t read(char* into, std::size_t size) const {
        std::size_t used = 0;
        while (used < size) {
            const ssize_t n = ::read(number, into + used, size - used);
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) fail(errno);
            if (n == 0) break;
            used += static_cast<std::size_t>(n);
        }
        return used;
    }
    std::size_t read_at(std::uint64_t at, char* into, std::size_t size) const {
        struct stat now;
        if (::fstat(number, &now) != 0) fail(errno);
        if (now.st_size != opened.st_size || now.st_mtim.tv_sec != opened.st_mtim.tv_sec ||
            now.st_mtim.tv_nsec != opened.st_mtim.tv_nsec)
            throw Error(Code::machine, name + ": was written to while it was read; import it again");
        std::size_t used = 0;
        while (used < size) {
            const ssize_t n = ::pread(number, into + used, size - used, static_cast<off_t>(at + used));
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) fail(errno);
            if (n == 0) break;
            used += static_cast<std::size_t>(n);
        }
        return used;
    }
};

/// What cannot be read twice is put into a file without a name, which goes with its descriptor; not more of it than is
/// too much.
std::shared_ptr<Descriptor> spooled(const Descriptor& from, std::string part) {
    auto out = std::make_shared<Descriptor>();
    out->name = from.name;
    std::FILE* const file = std::tmpfile();
    if (!file) from.fail(errno);
    out->number = ::fcntl(::fileno(file), F_DUPFD_CLOEXEC, 3);
    std::fclose(file);
    if (out->number < 0) from.fail(errno);
    std::uint64_t all = 0;
    while (!part.empty()) {
        for (std::size_t done = 0; done < part.size();) {
            const ssize_t n = ::write(out->number, part.data() + done, part.size() - done);
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) throw Error(Code::machine, from.name + ": cannot be put aside: " + std::strerror(errno));
            done += static_cast<std::size_t>(n);
        }
        all += part.size();
        if (all > limits::logger_file_bytes) break;
        part.resize(held);
        part.resize(from.read(part.data(), part.size()));
    }
    if (::fstat(out->number, &out->opened) != 0) from.fail(errno);
    return out;
}

}  // namespace

LoggerFile open_logger_file(const std::string& path) {
    const bool standard = path == "-";
    auto file = std::make_shared<Descriptor>();
    file->name = standard ? "standard input" : path;
    file->own = !standard;
    file->number = standard ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file->number < 0 || ::fstat(file->number, &file->opened) != 0) file->fail(errno);
    LoggerFile out;
    out.name = standard ? "standard input" : std::filesystem::path(path).filename().string();
    if (!S_ISREG(file->opened.st_mode) || standard || static_cast<std::uint64_t>(file->opened.st_size) <= held) {
        std::string part(held + 1, '\0');
        part.resize(file->read(part.data(), part.size()));
        if (part.size() <= held) {
            part.shrink_to_fit();
            out.content = std::move(part);
            return out;
        }
        file = spooled(*file, std::move(part));
    }
    out.size = static_cast<std::uint64_t>(file->opened.st_size);
    out.read = [file](std::uint64_t at, char* into, std::size_t size) { return file->read_at(at, into, size); };
    return out;
}

}  // namespace coldtally
