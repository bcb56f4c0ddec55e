// Disk: a disk that may lose power after any write. An SQLite VFS over the system's own, and the calls of the C library
// that make, name and sync files, keep a log of what is done to the files of one folder; from the log come the images
// that a power failure may leave: what was not synced is there, is not there, or is there in part.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "properties/random_site.hpp"

namespace faults {

using properties::Random;

/// One thing done to the folder. Files go by numbers of our own: a name may change hands.
struct DiskEvent {
    enum class Kind { write, truncate, sync, names, sync_names, mark };
    Kind kind = Kind::mark;
    int file = 0;
    std::int64_t at = 0;               ///< of a write; the new size of a truncate
    std::string bytes;                 ///< of a write
    std::map<std::string, int> names;  ///< what a name means from then on, all at once; 0: nothing
};

/// Registers the VFS as SQLite's default, and watches one folder at a time. One thread alone.
class Disk {
public:
    static Disk& get();

    /// From here on what is done to the files of `folder` is logged; what is there now is held to be on the disk.
    void watch(const std::string& folder);
    /// Ends the log and returns it; it begins with the files that were there, as synced writes.
    std::vector<DiskEvent> stop();
    /// What was done so far has been acknowledged.
    void mark();
    /// While paused nothing is logged; nothing may be written then.
    void pause(bool paused) { paused_ = paused; }

    // for the VFS and the C library's calls
    bool logs() const { return watching_ && !paused_; }
    bool is_within(const std::string& path) const;
    int file_named(const std::string& path);
    void wrote(int file, std::int64_t at, const void* bytes, std::size_t count);
    void truncated(int file, std::int64_t size);
    void synced(int file);
    void synced_names();
    void synced_plainly(const std::string& path);
    /// Finds names that were made, removed or changed since the last look.
    void look();

private:
    Disk();
    void look_at_bytes();

    bool watching_ = false, paused_ = false;
    std::string folder_;
    std::vector<DiskEvent> log_;
    std::map<std::string, int> names_;
    std::map<std::uint64_t, int> file_of_inode_;
    std::map<int, std::string> bytes_;
    int last_file_ = 0;
};

/// What a power failure left: the files of the folder by name.
using DiskImage = std::map<std::string, std::string>;

/// The state of the disk after a number of events: what is there for sure, and what is still on its way.
class DiskState {
public:
    /// `heeds_syncs`: false is a disk that says it has synced, and has not.
    explicit DiskState(bool heeds_syncs = true) : heeds_syncs_(heeds_syncs) {}
    void apply(const DiskEvent& event);
    int marks() const { return marks_; }
    /// Is anything on its way?
    bool settled() const;

    enum class Loss {
        all,    ///< of what is on its way, nothing arrived
        none,   ///< everything
        bytes,  ///< all names, no bytes
        names,  ///< all bytes, no names: deletions come back
        some,   ///< any part of it, by halves of sectors even, in any order
    };
    DiskImage image(Loss loss, Random& random) const;

private:
    struct File {
        std::string bytes;  ///< on the disk
        std::vector<DiskEvent> on_its_way;
    };
    bool heeds_syncs_;
    int marks_ = 0;
    bool begun_ = false;
    std::map<int, File> files_;
    std::map<std::string, int> names_;
    std::vector<DiskEvent> names_on_their_way_;
};

}  // namespace faults
