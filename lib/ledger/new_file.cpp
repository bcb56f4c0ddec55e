#include "ledger/new_file.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string_view>
#include <utility>

#include "coldtally/error.hpp"
#include "ledger/database.hpp"

namespace coldtally::ledger {

namespace {

// A name in work is the file's own, this, and six letters or digits; its lock's has "-lock" behind them.
constexpr std::string_view unfinished = ".unfinished-coldtally-", any_six = "XXXXXX", lock_end = "-lock";

struct Parts {
    std::string folder, file;  // the folder with its slash, or nothing
};

Parts parts_of(const std::string& path) {
    const auto slash = path.rfind('/');
    return slash == std::string::npos ? Parts{"", path} : Parts{path.substr(0, slash + 1), path.substr(slash + 1)};
}

/// The lock goes last: as long as there is anything to be swept away, it is found by it.
void remove_all_of(const std::string& name) {
    unlink(name.c_str());
    unlink((name + "-journal").c_str());
    unlink((name + std::string(lock_end)).c_str());
}

bool is_letter_or_digit(char c) { return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

/// Is it the lock of a name in work of `file`? None that a person gives to a file of theirs is.
bool is_lock_of(std::string_view name, std::string_view file) {
    if (name.size() != file.size() + unfinished.size() + any_six.size() + lock_end.size()) return false;
    if (!name.starts_with(file) || !name.substr(file.size()).starts_with(unfinished) || !name.ends_with(lock_end))
        return false;
    const auto six = name.substr(file.size() + unfinished.size(), any_six.size());
    return std::all_of(six.begin(), six.end(), is_letter_or_digit);
}

/// Is it still what the name stands for? Another creation may have taken it for left behind in the moment before the
/// lock.
bool still_there(int file, const std::string& name) {
    struct stat held, named;
    return fstat(file, &held) == 0 && stat(name.c_str(), &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino;
}

/// Whoever makes a file holds its lock to the end, also to that of a kill: what a lock that nobody holds stands for is
/// nobody's.
void remove_left_behind(const std::string& path) {
    const Parts parts = parts_of(path);
    DIR* folder = opendir(parts.folder.empty() ? "." : parts.folder.c_str());
    if (!folder) return;
    while (const dirent* one = readdir(folder)) {
        if (!is_lock_of(one->d_name, parts.file)) continue;
        const std::string lock = parts.folder + one->d_name;
        const int held = open(lock.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
        if (held < 0) continue;
        if (flock(held, LOCK_EX | LOCK_NB) == 0) remove_all_of(lock.substr(0, lock.size() - lock_end.size()));
        close(held);
    }
    closedir(folder);
}

}  // namespace

NewFile::NewFile(const std::string& path) : path_(path) {
    const auto fail = [&] {
        throw Error(Code::machine, shown_path(path) + ": cannot be made: " + std::strerror(errno));
    };
    remove_left_behind(path);
    std::string lock;
    do {
        if (lock_ >= 0) close(lock_);
        lock = path + std::string(unfinished) + std::string(any_six) + std::string(lock_end);
        lock_ = mkostemps(lock.data(), static_cast<int>(lock_end.size()), O_CLOEXEC);
        if (lock_ < 0) fail();
        flock(lock_, LOCK_EX);  // a file system without locks has nobody who would look for them
    } while (!still_there(lock_, lock));
    name_ = lock.substr(0, lock.size() - lock_end.size());
    const int file = open(name_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);  // for its owner alone
    if (file < 0) {
        const int why = errno;
        unlink(lock.c_str());
        close(lock_);
        errno = why;
        fail();
    }
    close(file);
}

NewFile::~NewFile() {
    if (lock_ < 0) return;
    remove_all_of(name_);
    close(lock_);
}

void NewFile::publish() {
    const auto fail = [&](const std::string& what) {
        throw Error(Code::machine, shown_path(path_) + ": " + what + ": " + std::strerror(errno));
    };
    bool moved = link(name_.c_str(), path_.c_str()) == 0;
    if (!moved && (errno == EPERM || errno == EOPNOTSUPP))  // a file system without links
        moved = renameat2(AT_FDCWD, name_.c_str(), AT_FDCWD, path_.c_str(), RENAME_NOREPLACE) == 0;
    if (!moved) {
        if (errno == EEXIST)
            throw Error(Code::ledger_exists, shown_path(path_) + ": there is a file of this name already");
        fail("cannot be made");
    }
    remove_all_of(name_);  // the names in work; the file stands at its own
    close(std::exchange(lock_, -1));
    const Parts parts = parts_of(path_);
    const int folder = open(parts.folder.empty() ? "." : parts.folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const bool synced = folder >= 0 && fsync(folder) == 0;
    const int why = errno;
    if (folder >= 0) close(folder);
    errno = why;
    if (!synced)
        fail("is made and whole, but its folder could not be synced, and a loss of power now may take it back");
}

}  // namespace coldtally::ledger
