// New file: a file that is filled beside its place and then put there whole; of one left half done nothing stays.
#pragma once

#include <string>

namespace coldtally::ledger {

/// A file of nothing beside `path`, for its owner alone whatever the umask, under a name that nobody can foresee, with
/// a file beside it whose lock says that it is in work. What creations that were killed left behind there is removed:
/// a file of such a name, whose lock nobody holds. The lock is a file of its own: SQLite's locks on the ledger would
/// end where this process closed any descriptor of it, and another thread may open it as soon as it is there.
class NewFile {
public:
    /// Code::machine where it cannot be made.
    explicit NewFile(const std::string& path);
    /// Removes it, with a journal and its lock, unless it was published.
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    const std::string& name() const { return name_; }
    /// Puts it at `path`, never over another file, ends the lock, and syncs the folder. Nothing may have it open any
    /// more. Code::ledger_exists; Code::machine, which says whether it stands at `path`.
    void publish();

private:
    std::string path_, name_;
    int lock_ = -1;  // none once it was published
};

}  // namespace coldtally::ledger
