// New file: a file that is filled beside its place and then put there whole; of one left half done nothing stays.
#pragma once

#include <string>

namespace coldtally::ledger {

/// A file of nothing beside `path`, for its owner alone whatever the umask, under a name that nobody can foresee. What
/// creations that were killed left behind there is removed: a file that nobody holds a lock on.
class NewFile {
public:
    /// Code::machine where it cannot be made.
    explicit NewFile(const std::string& path);
    /// Removes it, and a journal beside it, unless it was published.
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    const std::string& name() const { return name_; }
    /// Puts it at `path`, never over another file, and syncs the folder. Nothing may have it open any more.
    /// Code::ledger_exists; Code::machine, which says whether it stands at `path`.
    void publish();

private:
    std::string path_, name_;
    int lock_ = -1;
    bool published_ = false;
};

}  // namespace coldtally::ledger
