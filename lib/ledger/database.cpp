#include "ledger/database.hpp"

#include <sqlite3.h>

#include "coldtally/error.hpp"

namespace coldtally::ledger {

Database::Database(const std::string& path, bool create, bool writable, int wait_ms) : path_(path) {
    // A reader, too, opens for writing where it may: it may have to take back what a killed writer left half done.
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | (create ? SQLITE_OPEN_CREATE : 0);
    const int result = sqlite3_open_v2(path.c_str(), &handle_, flags, nullptr);
    if (result != SQLITE_OK) {
        const std::string why = handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(result);
        sqlite3_close(handle_);
        throw Error(Code::machine, path + ": cannot be opened: " + why);
    }
    sqlite3_extended_result_codes(handle_, 1);
    sqlite3_busy_timeout(handle_, wait_ms);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    if (!writable) execute("PRAGMA query_only = ON");
}

Database::~Database() {
    for (const auto& [sql, kept] : kept_) sqlite3_finalize(kept.handle);
    sqlite3_close(handle_);
}

void Database::fail(int result) {
    const std::string what = path_ + ": " + sqlite3_errmsg(handle_) + " (SQLite " + std::to_string(sqlite3_extended_errcode(handle_)) + ")";
    switch (result & 0xff) {
        case SQLITE_BUSY: case SQLITE_LOCKED:
            throw Error(Code::busy, path_ + ": another process is writing to the ledger; try again");
        case SQLITE_NOTADB: throw Error(Code::not_a_ledger, path_ + ": not a ledger file");
        case SQLITE_CORRUPT: throw Error(Code::damaged, path_ + ": the ledger file is damaged; restore it from a copy");
        case SQLITE_CONSTRAINT: case SQLITE_MISMATCH: throw Error(Code::damaged, what);
        case SQLITE_ERROR: throw Error(Code::damaged, what);  // every statement is ours: the tables are not as they were made
        default: throw Error(Code::machine, what);
    }
}

void Database::execute(const std::string& sql) {
    ++statements_run_;
    const int result = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr);
    if (result != SQLITE_OK) fail(result);
}

Statement Database::statement(const char* sql) {
    ++statements_run_;
    KeptStatement& kept = kept_[sql];
    if (kept.handle && !kept.in_use) {
        kept.in_use = true;
        return Statement(*this, kept.handle, &kept);
    }
    sqlite3_stmt* handle = nullptr;
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
    if (const int result = sqlite3_bind_text(handle_, i, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT); result != SQLITE_OK) db_.fail(result);
}

void Statement::bind_one(int i, const std::basic_string<unsigned char>& bytes) {
    if (const int result = sqlite3_bind_blob(handle_, i, bytes.data(), static_cast<int>(bytes.size()), SQLITE_TRANSIENT); result != SQLITE_OK) db_.fail(result);
}

void Statement::bind_one(int i, std::nullptr_t) {
    if (const int result = sqlite3_bind_null(handle_, i); result != SQLITE_OK) db_.fail(result);
}

Transaction::Transaction(Database& db, Kind kind) : db_(db) { db_.execute(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN"); }

Transaction::~Transaction() {
    if (!open_) return;
    try {
        db_.execute("ROLLBACK");
    } catch (const Error&) {
        // SQLite has taken it back already
    }
}

void Transaction::commit() {
    db_.execute("COMMIT");
    open_ = false;
}

}  // namespace coldtally::ledger
