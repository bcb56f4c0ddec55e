#include "ledger/new_file.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string_view>

#include "coldtally/error.hpp"

namespace coldtally::ledger {

namespace {

constexpr std::string_view marks = ".new-XXXXXX";

struct Parts {
    std::string folder, file;  // the folder with its slash, or nothing
};

Parts parts_of(const std::string& path) {
    const auto slash = path.rfind('/');
    return slash == std::string::npos ? Parts{"", path} : Parts{path.substr(0, slash + 1), path.substr(slash + 1)};
}

void remove_with_journal(const std::string& name) {
    unlink(name.c_str());
    unlink((name + "-journal").c_str());
}

/// Is it still what the name stands for? Another creation may have taken it for left behind in the moment before the
/// lock.
bool still_there(int file, const std::string& name) {
    struct stat held, named;
    return fstat(file, &held) == 0 && stat(name.c_str(), &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino;
}

/// Whoever makes a file holds a lock on it to the end, also to that of a kill: one without is nobody's.
void remove_left_behind(const std::string& path) {
    const Parts parts = parts_of(path);
    const std::string begin = parts.file + std::string(marks.substr(0, marks.find('X')));
    DIR* folder = opendir(parts.folder.empty() ? "." : parts.folder.c_str());
    if (!folder) return;
    while (const dirent* one = readdir(folder)) {
        const std::string_view file = one->d_name;
        if (file.size() != parts.file.size() + marks.size() || !file.starts_with(begin)) continue;
        const std::string name = parts.folder + std::string(file);
        const int held = open(name.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
        if (held < 0) continue;
        if (flock(held, LOCK_EX | LOCK_NB) == 0) remove_with_journal(name);
        close(held);
    }
    closedir(folder);
}

}  // namespace

NewFile::NewFile(const std::string& path) : path_(path) {
    remove_left_behind(path);
    do {
        if (lock_ >= 0) close(lock_);
        name_ = path + std::string(marks);
        lock_ = mkostemp(name_.data(), O_CLOEXEC);  // for its owner alone
        if (lock_ < 0) throw Error(Code::machine, path + ": cannot be made: " + std::strerror(errno));
        flock(lock_, LOCK_EX);  // a file system without locks has nobody who would look for them
    } while (!still_there(lock_, name_));
}

NewFile::~NewFile() {
    if (!published_) remove_with_journal(name_);
    close(lock_);
}

void NewFile::publish() {
    const auto fail = [&](const std::string& what) {
        throw Error(Code::machine, path_ + ": " + what + ": " + std::strerror(errno));
    };
    bool moved = link(name_.c_str(), path_.c_str()) == 0;
    if (moved)
        unlink(name_.c_str());
    else if (errno == EPERM || errno == EOPNOTSUPP)  // a file system without links
        moved = renameat2(AT_FDCWD, name_.c_str(), AT_FDCWD, path_.c_str(), RENAME_NOREPLACE) == 0;
    if (!moved) {
        if (errno == EEXIST) throw Error(Code::ledger_exists, path_ + ": there is a file of this name already");
        fail("cannot be made");
    }
    published_ = true;
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
