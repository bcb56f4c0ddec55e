#include "faults/disk.hpp"

#include <dirent.h>
#include <dlfcn.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <set>

namespace faults {

namespace {

int within_vfs = 0;  // calls of the C library that SQLite makes are its VFS's, and logged there

struct Within {
    Within() { ++within_vfs; }
    ~Within() { --within_vfs; }
};

std::string contents(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

// ---- the VFS

sqlite3_vfs* system_vfs = nullptr;

struct File {
    sqlite3_file base;
    int number;  // 0: of another folder
    sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File& of(sqlite3_file* f) { return *reinterpret_cast<File*>(f); }
sqlite3_file* real(sqlite3_file* f) { return of(f).real(); }

int close_file(sqlite3_file* f) {
    const Within within;
    const int result = real(f)->pMethods->xClose(real(f));
    Disk::get().look();
    return result;
}
int read_file(sqlite3_file* f, void* to, int count, sqlite3_int64 at) {
    return real(f)->pMethods->xRead(real(f), to, count, at);
}
int write_file(sqlite3_file* f, const void* from, int count, sqlite3_int64 at) {
    const int result = real(f)->pMethods->xWrite(real(f), from, count, at);
    if (result == SQLITE_OK) Disk::get().wrote(of(f).number, at, from, static_cast<std::size_t>(count));
    return result;
}
int truncate_file(sqlite3_file* f, sqlite3_int64 size) {
    const int result = real(f)->pMethods->xTruncate(real(f), size);
    if (result == SQLITE_OK) Disk::get().truncated(of(f).number, size);
    return result;
}
int sync_file(sqlite3_file* f, int flags) {
    const Within within;
    Disk::get().synced(of(f).number);  // before: the folder is synced within the call, after the file
    return real(f)->pMethods->xSync(real(f), flags);
}
int file_size(sqlite3_file* f, sqlite3_int64* size) { return real(f)->pMethods->xFileSize(real(f), size); }
int lock(sqlite3_file* f, int kind) { return real(f)->pMethods->xLock(real(f), kind); }
int unlock(sqlite3_file* f, int kind) { return real(f)->pMethods->xUnlock(real(f), kind); }
int check_lock(sqlite3_file* f, int* out) { return real(f)->pMethods->xCheckReservedLock(real(f), out); }
int control(sqlite3_file* f, int what, void* argument) {
    return real(f)->pMethods->xFileControl(real(f), what, argument);
}
int sector_size(sqlite3_file* f) { return real(f)->pMethods->xSectorSize(real(f)); }
int characteristics(sqlite3_file* f) { return real(f)->pMethods->xDeviceCharacteristics(real(f)); }

// Version 1: without shared memory and mapped files, whose writes nobody could log.
const sqlite3_io_methods methods = {
    1,       close_file,  read_file,       write_file, truncate_file, sync_file, file_size, lock,    unlock, check_lock,
    control, sector_size, characteristics, nullptr,    nullptr,       nullptr,   nullptr,   nullptr, nullptr};

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* f, int flags, int* out_flags) {
    const Within within;
    File& file = of(f);
    std::memset(f, 0, static_cast<std::size_t>(system_vfs->szOsFile) + sizeof(File));
    const int result = system_vfs->xOpen(system_vfs, name, file.real(), flags, out_flags);
    if (!file.real()->pMethods) return result;
    file.base.pMethods = &methods;
    Disk::get().look();
    file.number = name && Disk::get().is_within(name) ? Disk::get().file_named(name) : 0;
    return result;
}
int delete_file(sqlite3_vfs*, const char* name, int sync) {
    const Within within;
    return system_vfs->xDelete(system_vfs, name, sync);
}
int access_file(sqlite3_vfs*, const char* name, int flags, int* out) {
    return system_vfs->xAccess(system_vfs, name, flags, out);
}
int full_name(sqlite3_vfs*, const char* name, int count, char* out) {
    return system_vfs->xFullPathname(system_vfs, name, count, out);
}
int randomness(sqlite3_vfs*, int count, char* out) { return system_vfs->xRandomness(system_vfs, count, out); }
int sleep_for(sqlite3_vfs*, int microseconds) { return system_vfs->xSleep(system_vfs, microseconds); }
int current_time(sqlite3_vfs*, double* out) { return system_vfs->xCurrentTime(system_vfs, out); }
int last_error(sqlite3_vfs*, int count, char* out) { return system_vfs->xGetLastError(system_vfs, count, out); }
int current_time_64(sqlite3_vfs*, sqlite3_int64* out) { return system_vfs->xCurrentTimeInt64(system_vfs, out); }

template <class Call>
Call next_of(const char* name) {
    void* found = dlsym(RTLD_NEXT, name);
    if (!found) std::abort();
    return reinterpret_cast<Call>(found);
}

}  // namespace

Disk& Disk::get() {
    static Disk disk;
    return disk;
}

Disk::Disk() {
    system_vfs = sqlite3_vfs_find(nullptr);
    static sqlite3_vfs vfs;
    vfs = *system_vfs;
    vfs.iVersion = 2;
    vfs.szOsFile = system_vfs->szOsFile + static_cast<int>(sizeof(File));
    vfs.zName = "power";
    vfs.pNext = nullptr;
    vfs.xOpen = open_file;
    vfs.xDelete = delete_file;
    vfs.xAccess = access_file;
    vfs.xFullPathname = full_name;
    vfs.xRandomness = randomness;
    vfs.xSleep = sleep_for;
    vfs.xCurrentTime = current_time;
    vfs.xGetLastError = last_error;
    vfs.xCurrentTimeInt64 = current_time_64;
    vfs.xDlOpen = nullptr;
    vfs.xDlError = nullptr;
    vfs.xDlSym = nullptr;
    vfs.xDlClose = nullptr;
    if (sqlite3_vfs_register(&vfs, 1) != SQLITE_OK) std::abort();
}

bool Disk::is_within(const std::string& path) const {
    return watching_ && path.size() > folder_.size() + 1 && path.compare(0, folder_.size(), folder_) == 0 &&
           path[folder_.size()] == '/' && path.find('/', folder_.size() + 1) == std::string::npos;
}

int Disk::file_named(const std::string& path) {
    const auto found = names_.find(path.substr(folder_.size() + 1));
    return found == names_.end() ? 0 : found->second;
}

void Disk::watch(const std::string& folder) {
    folder_ = folder;
    log_.clear();
    names_.clear();
    file_of_inode_.clear();
    bytes_.clear();
    watching_ = true;
    paused_ = false;
    look();
    for (const auto& [number, bytes] : bytes_) log_.push_back({DiskEvent::Kind::sync, number, 0, {}, {}});
    log_.push_back({DiskEvent::Kind::sync_names, 0, 0, {}, {}});
}

std::vector<DiskEvent> Disk::stop() {
    look();
    look_at_bytes();
    watching_ = false;
    return std::move(log_);
}

void Disk::mark() {
    look();
    look_at_bytes();
    log_.push_back({DiskEvent::Kind::mark, 0, 0, {}, {}});
}

void Disk::wrote(int file, std::int64_t at, const void* bytes, std::size_t count) {
    if (!logs() || file == 0) return;
    std::string& all = bytes_[file];
    const auto from = static_cast<std::size_t>(at);
    if (all.size() < from + count) all.resize(from + count);
    std::memcpy(all.data() + from, bytes, count);
    log_.push_back({DiskEvent::Kind::write, file, at, std::string(static_cast<const char*>(bytes), count), {}});
}

void Disk::truncated(int file, std::int64_t size) {
    if (!logs() || file == 0) return;
    bytes_[file].resize(static_cast<std::size_t>(size));
    log_.push_back({DiskEvent::Kind::truncate, file, size, {}, {}});
}

void Disk::synced(int file) {
    if (logs() && file != 0) log_.push_back({DiskEvent::Kind::sync, file, 0, {}, {}});
}

void Disk::synced_names() {
    look();
    if (logs()) log_.push_back({DiskEvent::Kind::sync_names, 0, 0, {}, {}});
}

void Disk::synced_plainly(const std::string& path) {
    look();
    look_at_bytes();
    synced(file_named(path));
}

void Disk::look() {
    if (!logs()) return;
    std::map<std::string, int> now;
    std::map<std::uint64_t, int> inodes;
    std::vector<int> fresh;
    DIR* folder = opendir(folder_.c_str());
    if (!folder) return;
    while (const dirent* entry = readdir(folder)) {
        struct stat about;
        const std::string path = folder_ + "/" + entry->d_name;
        if (lstat(path.c_str(), &about) != 0 || !S_ISREG(about.st_mode)) continue;
        const auto known = file_of_inode_.find(about.st_ino);
        int number = known != file_of_inode_.end() ? known->second : 0;
        if (number == 0) fresh.push_back(number = ++last_file_);
        inodes[about.st_ino] = number;
        now[entry->d_name] = number;
    }
    closedir(folder);
    for (const int number : fresh) {
        std::string path;
        for (const auto& [name, of_it] : now)
            if (of_it == number) path = folder_ + "/" + name;
        bytes_[number];
        if (const std::string bytes = contents(path); !bytes.empty()) wrote(number, 0, bytes.data(), bytes.size());
    }
    DiskEvent changed{DiskEvent::Kind::names, 0, 0, {}, {}};
    for (const auto& [name, number] : now)
        if (const auto before = names_.find(name); before == names_.end() || before->second != number)
            changed.names[name] = number;
    for (const auto& [name, number] : names_)
        if (!now.count(name)) changed.names[name] = 0;
    names_ = std::move(now);
    file_of_inode_ = std::move(inodes);
    if (!changed.names.empty()) log_.push_back(std::move(changed));
}

/// What was written without SQLite is found by looking at it.
void Disk::look_at_bytes() {
    if (!logs()) return;
    std::set<int> seen;
    for (const auto& [name, number] : names_) {
        if (!seen.insert(number).second) continue;
        const std::string bytes = contents(folder_ + "/" + name);
        if (bytes == bytes_[number]) continue;
        if (bytes.size() < bytes_[number].size()) truncated(number, static_cast<std::int64_t>(bytes.size()));
        wrote(number, 0, bytes.data(), bytes.size());
    }
}

// ---- what is there after a power failure

void DiskState::apply(const DiskEvent& event) {
    using Kind = DiskEvent::Kind;
    const auto write = [](std::string& bytes, const DiskEvent& e) {
        if (e.kind == Kind::truncate) {
            bytes.resize(static_cast<std::size_t>(e.at));
            return;
        }
        const auto from = static_cast<std::size_t>(e.at);
        if (bytes.size() < from + e.bytes.size()) bytes.resize(from + e.bytes.size());
        std::memcpy(bytes.data() + from, e.bytes.data(), e.bytes.size());
    };
    switch (event.kind) {
    case Kind::write:
    case Kind::truncate: files_[event.file].on_its_way.push_back(event); break;
    case Kind::sync:
        if (begun_ && !heeds_syncs_) break;
        for (const auto& e : files_[event.file].on_its_way) write(files_[event.file].bytes, e);
        files_[event.file].on_its_way.clear();
        break;
    case Kind::names: names_on_their_way_.push_back(event); break;
    case Kind::sync_names:
        if (begun_ && !heeds_syncs_) break;
        begun_ = true;  // the first ends what was there when the log began
        for (const auto& e : names_on_their_way_)
            for (const auto& [name, number] : e.names)
                if (number == 0)
                    names_.erase(name);
                else
                    names_[name] = number;
        names_on_their_way_.clear();
        break;
    case Kind::mark: ++marks_; break;
    }
}

bool DiskState::settled() const {
    if (!names_on_their_way_.empty()) return false;
    for (const auto& [number, file] : files_)
        if (!file.on_its_way.empty()) return false;
    return true;
}

DiskImage DiskState::image(Loss loss, Random& random) const {
    using Kind = DiskEvent::Kind;
    constexpr std::size_t half_sector = 256;
    const bool names_arrive = loss == Loss::none || loss == Loss::bytes,
               bytes_arrive = loss == Loss::none || loss == Loss::names;
    const bool some = loss == Loss::some;
    const std::int64_t of_how_many = random.from(2, 4);  // how much arrives differs from image to image
    const auto arrives = [&] { return !random.one_in(of_how_many); };

    auto names = names_;
    for (const auto& e : names_on_their_way_) {
        if (!(names_arrive || (some && random.one_in(2)))) continue;
        for (const auto& [name, number] : e.names)
            if (number == 0)
                names.erase(name);
            else
                names[name] = number;
    }
    DiskImage out;
    for (const auto& [name, number] : names) {
        const auto found = files_.find(number);
        if (found == files_.end()) {
            out[name];
            continue;
        }
        std::string bytes = found->second.bytes;
        for (const auto& e : found->second.on_its_way) {
            if (!bytes_arrive && !(some && arrives())) continue;
            if (e.kind == Kind::truncate) {
                bytes.resize(static_cast<std::size_t>(e.at));
                continue;
            }
            const auto from = static_cast<std::size_t>(e.at);
            const std::size_t before = bytes.size();
            if (before < from + e.bytes.size()) bytes.resize(from + e.bytes.size());
            const bool torn = some && random.one_in(3);
            if (!torn) {
                std::memcpy(bytes.data() + from, e.bytes.data(), e.bytes.size());
                continue;
            }
            for (std::size_t piece = 0; piece < e.bytes.size(); piece += half_sector) {
                const std::size_t count = std::min(half_sector, e.bytes.size() - piece);
                if (random.one_in(2))
                    std::memcpy(bytes.data() + from + piece, e.bytes.data() + piece, count);
                else if (from + piece >= before && random.one_in(2))  // where nothing was, anything may be
                    for (std::size_t i = 0; i < count; ++i) bytes[from + piece + i] = static_cast<char>(random.next());
            }
        }
        out[name] = std::move(bytes);
    }
    return out;
}

}  // namespace faults

// ---- the C library's calls that make, name and sync files: a program's own definition goes before that of the library

using faults::Disk;
using faults::next_of;

namespace {

std::string path_of(int descriptor) {
    char path[4096];
    const ssize_t length = readlink(("/proc/self/fd/" + std::to_string(descriptor)).c_str(), path, sizeof path);
    return length > 0 ? std::string(path, static_cast<std::size_t>(length)) : std::string();
}

void synced(int descriptor) {
    if (!Disk::get().logs()) return;
    struct stat about;
    if (fstat(descriptor, &about) != 0) return;
    const std::string path = path_of(descriptor);
    if (S_ISDIR(about.st_mode)) {
        if (Disk::get().is_within(path + "/.")) Disk::get().synced_names();
    } else if (faults::within_vfs == 0 && Disk::get().is_within(path)) {
        Disk::get().synced_plainly(path);
    }
}

}  // namespace

extern "C" {

int fsync(int descriptor) {
    static const auto call = next_of<int (*)(int)>("fsync");
    const int result = call(descriptor);
    if (result == 0) synced(descriptor);
    return result;
}
int fdatasync(int descriptor) {
    static const auto call = next_of<int (*)(int)>("fdatasync");
    const int result = call(descriptor);
    if (result == 0) synced(descriptor);
    return result;
}
int link(const char* from, const char* to) noexcept {
    static const auto call = next_of<int (*)(const char*, const char*)>("link");
    const int result = call(from, to);
    Disk::get().look();
    return result;
}
int unlink(const char* path) noexcept {
    static const auto call = next_of<int (*)(const char*)>("unlink");
    const int result = call(path);
    Disk::get().look();
    return result;
}
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) noexcept {
    static const auto call = next_of<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    const int result = call(from_folder, from, to_folder, to, flags);
    Disk::get().look();
    return result;
}
int rename(const char* from, const char* to) noexcept {
    static const auto call = next_of<int (*)(const char*, const char*)>("rename");
    const int result = call(from, to);
    Disk::get().look();
    return result;
}
int remove(const char* path) noexcept {
    static const auto call = next_of<int (*)(const char*)>("remove");
    const int result = call(path);
    Disk::get().look();
    return result;
}

}  // extern "C"
