#include "ledger/database.hpp"

#include <sqlite3.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <thread>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"
#include "text/utf8.hpp"
#include "words/file.hpp"

namespace coldtally::ledger {

namespace {

/// A read that failed: SQLite tells some of them as damage, and the system's own number still knows.
bool is_failed_read(int system) { return system == EIO || system == ENXIO || system == ERANGE; }

/// Where the process is: names that SQLite would take for something else ("file:x", ":memory:") begin with a slash
/// then.
std::string absolute(const std::string& path) { return std::filesystem::absolute(path).string(); }

constexpr std::size_t most_of_a_path = 200;  // as of an argument of the command line

}  // namespace

std::string shown_path(const std::string& path) {
    const bool plain =
        text::printable(path) && !text::turns_direction(path) && text::characters(path) <= most_of_a_path;
    return plain ? path : text::quoted(path);
}

Database::Database(const std::string& path, Access access, int wait_ms) : path_(path), wait_ms_(wait_ms) {
    // A reader, too, opens for writing where it may: it may have to take back what a killed writer left half done.
    const int result =
        sqlite3_open_v2(absolute(path).c_str(), &handle_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, nullptr);
    if (result != SQLITE_OK) {
        const std::string why = handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(result);
        sqlite3_close(handle_);
        throw Error(Code::machine, shown() + ": cannot be opened: " + why);
    }
    set_up();
    sqlite3_busy_handler(
        handle_, [](void* self, int times) { return static_cast<Database*>(self)->wait_turn(times == 0) ? 1 : 0; },
        this);
    if (access == Access::read) execute("PRAGMA query_only = ON");
}

std::unique_ptr<Database> Database::in_memory() {
    std::unique_ptr<Database> out(new Database);
    out->path_ = "memory";
    if (const int result = sqlite3_open_v2(":memory:", &out->handle_,
                                           SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_MEMORY, nullptr);
        result != SQLITE_OK)
        throw Error(Code::machine, std::string("no database in memory: ") + sqlite3_errstr(result));
    out->set_up();
    sqlite3_db_config(out->handle_, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
    sqlite3_db_config(out->handle_, SQLITE_DBCONFIG_ENABLE_FKEY, 0, nullptr);
    return out;
}

void Database::set_up() {
    sqlite3_extended_result_codes(handle_, 1);
    // what a schema of another hand would run is not run
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
    execute("PRAGMA temp_store = MEMORY");  // no temporary file holds what a ledger says of patients
    uneven_ = static_cast<std::uint32_t>(std::chrono::steady_clock::now().time_since_epoch().count()) | 1;
}

bool Database::wait_turn(bool first) noexcept {
    const auto now = std::chrono::steady_clock::now();
    if (first) waiting_until_ = now + std::chrono::milliseconds(wait_ms_);
    if (now >= waiting_until_) return false;
    // short and uneven: whoever waits longer and longer is passed by those who have just come
    uneven_ = uneven_ * 1664525u + 1013904223u;
    std::this_thread::sleep_for(std::chrono::microseconds(500 + (uneven_ >> 16) % 2000));
    return true;
}

Database::~Database() {
    for (const auto& [sql, kept] : kept_) sqlite3_finalize(kept.handle);
    sqlite3_close(handle_);
}

void Database::damaged(Field what) const {
    throw Refusal(Code::damaged, words::file_damaged(shown(), std::move(what), words::task("restore")));
}

/// " (4096 bytes of 40960)" where the file is shorter than its own header says. Read through SQLite's own descriptor:
/// to close another one of the file would end the locks that this process holds on it.
std::string Database::shortfall() const {
    sqlite3_file* file = nullptr;
    if (sqlite3_file_control(handle_, "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK || !file ||
        !file->pMethods)
        return {};
    unsigned char h[100];
    sqlite3_int64 size = 0;
    if (file->pMethods->xFileSize(file, &size) != SQLITE_OK || file->pMethods->xRead(file, h, sizeof h, 0) != SQLITE_OK)
        return {};
    // offsets of SQLite's file format, section 1.3
    const auto big_endian = [&](int at) {
        return (std::int64_t{h[at]} << 24) | (std::int64_t{h[at + 1]} << 16) | (std::int64_t{h[at + 2]} << 8) |
               h[at + 3];
    };
    std::int64_t page = (std::int64_t{h[16]} << 8) | h[17];
    if (page == 1) page = 65536;
    const std::int64_t said = big_endian(28) * page;
    return said > size ? "truncated: " + std::to_string(size) + " bytes of " + std::to_string(said) : std::string();
}

void Database::fail(int result) {
    const int system = errno;
    const int extended = sqlite3_extended_errcode(handle_);
    const std::string what = shown() + ": " + sqlite3_errmsg(handle_) + " (SQLite " + std::to_string(extended) + ")";
    switch (result & 0xff) {
        case SQLITE_BUSY: case SQLITE_LOCKED:
            throw Error(Code::busy, shown() + ": another process is reading or writing the ledger; try again");
        case SQLITE_NOTADB: throw Error(Code::not_a_ledger, shown() + ": not a ledger of coldtally");
        case SQLITE_CORRUPT:
            if (is_failed_read(system))
                throw Error(Code::machine, shown() + ": could not be read: " + std::strerror(system) +
                                               "; the disk, or the way to it, failed");
            if (const std::string cut = shortfall(); !cut.empty()) damaged(cut);
            damaged("the ledger file is damaged");
        case SQLITE_READONLY:
            if (extended == SQLITE_READONLY_ROLLBACK || extended == SQLITE_READONLY_RECOVERY)
                throw Error(Code::machine, shown() +
                                               ": a process ended while it wrote, and to take that back needs leave to "
                                               "write to the file and its folder");
            throw Error(Code::machine, what);
        case SQLITE_CONSTRAINT: case SQLITE_MISMATCH: throw Error(Code::damaged, what);
        case SQLITE_ERROR:
            throw Error(Code::damaged, what);  // every statement is ours: the tables are not as they were made
        default: throw Error(Code::machine, what);
    }
}

void Database::execute(const std::string& sql) {
    ++statements_run_;
    errno = 0;
    const int result = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr);
    if (result != SQLITE_OK) fail(result);
}

void Database::commit() {
    ++statements_run_;
    errno = 0;
    const int result = sqlite3_exec(handle_, "COMMIT", nullptr, nullptr, nullptr);
    if (result == SQLITE_IOERR_DIR_FSYNC)
        throw Error(Code::machine, shown() +
                                       ": the entries are in the ledger, but its folder could not be synced: a loss of "
                                       "power now may take them back. Look "
                                       "what is there before anything is posted again");
    if (result != SQLITE_OK) fail(result);
}

void Database::copy_to(Database& other) {
    sqlite3_backup* copy = sqlite3_backup_init(other.handle_, "main", handle_, "main");
    if (!copy) other.fail(sqlite3_errcode(other.handle_));
    int result = SQLITE_OK;
    bool first = true;
    do {
        errno = 0;
        result = sqlite3_backup_step(copy, -1);  // all of it in one: under one lock
        const bool busy = result == SQLITE_BUSY || result == SQLITE_LOCKED;
        if (!busy || !wait_turn(std::exchange(first, false))) break;
    } while (true);
    const int end = sqlite3_backup_finish(copy);
    if (result == SQLITE_DONE && end == SQLITE_OK) return;
    if (end == SQLITE_OK || result == SQLITE_BUSY || result == SQLITE_LOCKED) fail(result);
    other.fail(end);
}

Statement Database::statement(const char* sql) {
    ++statements_run_;
    KeptStatement& kept = kept_[sql];
    if (kept.handle && !kept.in_use) {
        kept.in_use = true;
        return Statement(*this, kept.handle, &kept);
    }
    sqlite3_stmt* handle = nullptr;
    errno = 0;
    const int result = sqlite3_prepare_v3(handle_, sql, -1, SQLITE_PREPARE_PERSISTENT, &handle, nullptr);
    if (result != SQLITE_OK) fail(result);
    if (kept.handle) return Statement(*this, handle, nullptr);  // two of one text in use at once
    kept = {handle, true};
    return Statement(*this, handle, &kept);
}

Statement::~Statement() {
    if (!handle_) return;
    if (!kept_) {
        sqlite3_finalize(handle_);
        return;
    }
    sqlite3_reset(handle_);
    sqlite3_clear_bindings(handle_);
    kept_->in_use = false;
}

bool Statement::step() {
    errno = 0;
    const int result = sqlite3_step(handle_);
    if (result == SQLITE_ROW) return true;
    if (result != SQLITE_DONE) db_.fail(result);
    return false;
}

void Statement::run() {
    while (step()) {
    }
    sqlite3_reset(handle_);
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(handle_, column); }

std::string_view Statement::text(int column) const {
    const auto* p = reinterpret_cast<const char*>(sqlite3_column_text(handle_, column));
    return {p ? p : "", static_cast<std::size_t>(sqlite3_column_bytes(handle_, column))};
}

bool Statement::is_null(int column) const { return sqlite3_column_type(handle_, column) == SQLITE_NULL; }

std::string_view Statement::blob(int column) const {
    const auto* p = static_cast<const char*>(sqlite3_column_blob(handle_, column));
    return {p ? p : "", static_cast<std::size_t>(sqlite3_column_bytes(handle_, column))};
}

void Statement::bind_one(int i, std::int64_t value) {
    if (const int result = sqlite3_bind_int64(handle_, i, value); result != SQLITE_OK) db_.fail(result);
}

void Statement::bind_one(int i, std::string_view text) {
    if (const int result = sqlite3_bind_text(handle_, i, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT);
        result != SQLITE_OK)
        db_.fail(result);
}

void Statement::bind_one(int i, const std::basic_string<unsigned char>& bytes) {
    if (const int result =
            sqlite3_bind_blob(handle_, i, bytes.data(), static_cast<int>(bytes.size()), SQLITE_TRANSIENT);
        result != SQLITE_OK)
        db_.fail(result);
}

void Statement::bind_one(int i, std::nullptr_t) {
    if (const int result = sqlite3_bind_null(handle_, i); result != SQLITE_OK) db_.fail(result);
}

Transaction::Transaction(Database& db, Kind kind) : db_(db) {
    db_.execute(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
    if (!open_) return;
    try {
        db_.execute("ROLLBACK");
    } catch (const Error&) {
        // SQLite has taken it back already
    }
}

void Transaction::commit() {
    db_.commit();
    open_ = false;
}

}  // namespace coldtally::ledger
