// Failing disk: what the machine could not do is said as that, and not as damage; what is in the ledger all the same is
// said, too.
#include "ledger/made_file.hpp"

#include <cerrno>

#include "temporary.hpp"

using namespace coldtally;
using namespace tests;

namespace {

/// The system's files of SQLite, of which reads or the syncs of folders can be made to fail as a disk does it.
class FailingDisk {
public:
    FailingDisk() {
        reads = folders = false;
        system = sqlite3_vfs_find(nullptr);
        vfs = *system;
        vfs.zName = "failing";
        vfs.xOpen = [](sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* given) {
            const int result = system->xOpen(system, name, file, flags, given);
            if (result == SQLITE_OK && (flags & SQLITE_OPEN_MAIN_DB) != 0) {
                own = file->pMethods;
                methods = *own;
                methods.xRead = [](sqlite3_file* f, void* to, int count, sqlite3_int64 at) {
                    if (!reads || at == 0) return own->xRead(f, to, count, at);
                    errno = EIO;
                    return SQLITE_IOERR_CORRUPTFS;  // what SQLite's own file gives then
                };
                file->pMethods = &methods;
            }
            return result;
        };
        vfs.xDelete = [](sqlite3_vfs*, const char* name, int sync) {
            const int result = system->xDelete(system, name, sync);
            return result == SQLITE_OK && sync && folders ? SQLITE_IOERR_DIR_FSYNC : result;
        };
        sqlite3_vfs_register(&vfs, 1);
    }
    ~FailingDisk() {
        sqlite3_vfs_register(system, 1);
        sqlite3_vfs_unregister(&vfs);
    }
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;

    static inline bool reads = false, folders = false;

private:
    static inline sqlite3_vfs vfs;
    static inline sqlite3_vfs* system = nullptr;
    static inline sqlite3_io_methods methods;
    static inline const sqlite3_io_methods* own = nullptr;
};

template <class F>
void fails(const std::string& word, F f) {
    try {
        f();
        FAIL_CHECK("did not fail");
    } catch (const Error& e) {
        INFO(e.what());
        CHECK(e.code() == Code::machine);
        CHECK(std::string(e.what()).find(word) != std::string::npos);
        CHECK(std::string(e.what()).find("restore") == std::string::npos);
    }
}

}  // namespace

TEST_CASE("a disk that fails to read is told as that, and not as damage") {
    const tests::TemporaryFile file;
    make(file.path());
    FailingDisk disk;
    for (const bool verifies : {false, true}) {
        const Ledger ledger(file.path());
        FailingDisk::reads = true;
        fails("could not be read: Input/output error",
              [&] { verifies ? (void)ledger.verify() : (void)ledger.lists({}, now); });
        FailingDisk::reads = false;
        CHECK_NOTHROW(Ledger(file.path()).lists({}, now));
    }
}

TEST_CASE("entries whose folder could not be synced are said to be in the ledger") {
    const tests::TemporaryFile file;
    make(file.path());
    FailingDisk disk;
    Ledger ledger(file.path(), Ledger::Mode::write);
    FailingDisk::folders = true;
    fails("the entries are in the ledger, but its folder could not be synced", [&] { ledger.post(a_check, now); });
    FailingDisk::folders = false;
    CHECK(Ledger(file.path()).verify().entries == 8);
    CHECK_NOTHROW(ledger.post(a_check, now));  // and it goes on
    CHECK(Ledger(file.path()).verify().entries == 9);
}
