// Database: SQLite with statements that clean up after themselves, and errors of our own list.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "coldtally/words.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace coldtally::ledger {

class Database;

/// The name of a file in a message: as it is where it can be read in one line, else as a JSON string; of one over
/// 200 characters its beginning, with how long it is.
std::string shown_path(const std::string& path);

/// A statement that stays prepared; its address does not change.
struct KeptStatement {
    sqlite3_stmt* handle = nullptr;
    bool in_use = false;
};

/// A prepared statement in use; at its end it is reset and goes back to the Database, which must outlive it.
class Statement {
public:
    Statement(Statement&& other) noexcept
        : db_(other.db_), handle_(std::exchange(other.handle_, nullptr)), kept_(other.kept_) {}
    Statement& operator=(Statement&&) = delete;
    ~Statement();

    /// Binds the parameters in order, from the first.
    template <class... T>
    Statement& bind(const T&... values) {
        int i = 0;
        (bind_one(++i, values), ...);
        return *this;
    }
    /// True where there is a row. Its texts and blobs are valid until the next step.
    bool step();
    /// Runs to the end, and makes ready for other parameters.
    void run();

    std::int64_t integer(int column) const;
    std::string_view text(int column) const;
    bool is_null(int column) const;
    std::string_view blob(int column) const;

private:
    friend class Database;
    /// `kept`: what lends it; null where it is to be ended after use.
    Statement(Database& db, sqlite3_stmt* handle, KeptStatement* kept) : db_(db), handle_(handle), kept_(kept) {}
    void bind_one(int i, std::int64_t value);
    void bind_one(int i, int value) { bind_one(i, std::int64_t{value}); }
    void bind_one(int i, std::string_view text);
    void bind_one(int i, const std::string& text) { bind_one(i, std::string_view(text)); }
    void bind_one(int i, std::nullptr_t);
    void bind_one(int i, const std::basic_string<unsigned char>& bytes);
    template <class T>
    void bind_one(int i, const std::optional<T>& value) {
        if (value)
            bind_one(i, *value);
        else
            bind_one(i, nullptr);
    }

    Database& db_;
    sqlite3_stmt* handle_;
    KeptStatement* kept_;
};

class Database {
public:
    /// `read` refuses every change by this connection.
    enum class Access { read, write };
    /// Opens a file that is there. `path` is a file's name, whatever it looks like: no name has a meaning for SQLite.
    /// `wait_ms`: how long a call may wait for other connections.
    Database(const std::string& path, Access access, int wait_ms);
    /// A database of its own that no file holds, without triggers and references.
    static std::unique_ptr<Database> in_memory();
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    void execute(const std::string& sql);
    /// Ends a transaction. Where the batch is in the file and only the folder could not be synced, the Error says so.
    void commit();
    /// Copies the whole file as it is at one instant into a file of nothing.
    void copy_to(Database& other);
    /// A statement for `sql`, a literal that lives as long as the program: it is prepared once.
    Statement statement(const char* sql);
    const std::string& path() const { return path_; }
    /// The same in a message.
    std::string shown() const { return shown_path(path_); }
    /// The name in messages, where the file is to have another in the end.
    void say(const std::string& path) { path_ = path; }
    std::int64_t statements_run() const { return statements_run_; }

    /// Throws the Error that the last result of SQLite means.
    [[noreturn]] void fail(int result);
    /// Code::damaged: what is wrong with the file, and how to keep what can still be had.
    [[noreturn]] void damaged(Field what) const;

private:
    friend class Statement;
    Database() = default;
    void set_up();
    /// Waits a moment for another connection; false where that has been long enough.
    bool wait_turn(bool first) noexcept;
    std::string shortfall() const;
    std::string path_;
    int wait_ms_ = 0;
    std::chrono::steady_clock::time_point waiting_until_;
    std::uint32_t uneven_ = 1;
    sqlite3* handle_ = nullptr;
    std::unordered_map<const char*, KeptStatement> kept_;
    std::int64_t statements_run_ = 0;
};

/// Begins a transaction and takes it back at its end, unless committed.
class Transaction {
public:
    enum class Kind { read, write };
    Transaction(Database& db, Kind kind);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

private:
    Database& db_;
    bool open_ = true;
};

}  // namespace coldtally::ledger
