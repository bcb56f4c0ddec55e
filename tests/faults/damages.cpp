#include "faults/damages.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>
#include <fstream>
#include <memory>
#include <stdexcept>

namespace faults {

using properties::Random;

namespace {

/// A database program of somebody's who may do anything.
class Sql {
public:
    explicit Sql(const std::string& path) {
        if (sqlite3_open_v2(path.c_str(), &db_, SQLITE_OPEN_READWRITE, nullptr) != SQLITE_OK)
            throw std::runtime_error("cannot be opened");
        sqlite3_db_config(db_, SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);
        sqlite3_db_config(db_, SQLITE_DBCONFIG_WRITABLE_SCHEMA, 1, nullptr);
        run("PRAGMA foreign_keys = OFF; PRAGMA synchronous = OFF");
    }
    ~Sql() { sqlite3_close(db_); }
    Sql(const Sql&) = delete;
    Sql& operator=(const Sql&) = delete;

    bool run(const std::string& sql, std::string* words = nullptr) {
        char* message = nullptr;
        const bool done = sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, &message) == SQLITE_OK;
        if (words && message) *words = message;
        sqlite3_free(message);
        return done;
    }
    std::vector<std::vector<std::string>> rows(const std::string& sql) {
        std::vector<std::vector<std::string>> out;
        sqlite3_exec(
            db_, sql.c_str(),
            [](void* to, int count, char** values, char**) {
                auto& all = *static_cast<std::vector<std::vector<std::string>>*>(to);
                all.emplace_back();
                for (int i = 0; i < count; ++i) all.back().emplace_back(values[i] ? values[i] : "");
                return 0;
            },
            &out, nullptr);
        return out;
    }
    std::vector<std::string> column(const std::string& sql) {
        std::vector<std::string> out;
        for (auto& row : rows(sql)) out.push_back(row.at(0));
        return out;
    }
    int changes() { return sqlite3_total_changes(db_); }

    std::vector<std::string> drop_triggers() {
        const auto all = rows("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
        std::vector<std::string> made;
        for (const auto& t : all) {
            run("DROP TRIGGER \"" + t[0] + "\"");
            made.push_back(t[1]);
        }
        return made;
    }

private:
    sqlite3* db_ = nullptr;
};

struct Column {
    std::string name, type;
    bool key = false, may_be_null = false;
};
struct Table {
    std::string name;
    std::vector<Column> columns;
    std::string key() const {
        return list([](const Column& c) { return c.key; });
    }
    template <class Which>
    std::string list(Which which) const {
        std::string out;
        for (const auto& c : columns)
            if (which(c)) out += (out.empty() ? "" : ", ") + c.name;
        return out;
    }
};

std::vector<Table> tables_of(Sql& sql) {
    std::vector<Table> out;
    for (const auto& name :
         sql.column("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")) {
        Table t{name, {}};
        for (const auto& row : sql.rows("SELECT name, type, pk, \"notnull\" FROM pragma_table_info('" + name + "')"))
            t.columns.push_back({row[0], row[1], row[2] != "0", row[3] == "0" && row[2] == "0"});
        out.push_back(std::move(t));
    }
    return out;
}

std::string row_where(const Table& t, const std::string& order_and_offset) {
    return "(" + t.key() + ") IN (SELECT " + t.key() + " FROM " + t.name + " " + order_and_offset + ")";
}

// ---- of the file's bytes

void write(const std::string& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

Damage of_bytes(Random random, const std::string& whole) {
    constexpr std::int64_t page = 4096;
    std::string bytes = whole;
    std::string journal;
    const auto size = static_cast<std::int64_t>(bytes.size());
    const auto pages = size / page;
    std::string what;
    switch (random.from(0, 8)) {
    case 0:
    case 1:
    case 2: {
        const auto count = random.one_in(2) ? 1 : random.from(2, 9);
        what = std::to_string(count) + " bytes changed:";
        for (std::int64_t i = 0; i < count; ++i) {
            const auto at = random.from(0, size - 1);
            bytes[static_cast<std::size_t>(at)] = static_cast<char>(random.next());
            what += " " + std::to_string(at);
        }
        break;
    }
    case 3: {
        const std::int64_t length = random.one_in(2) ? page : 512, at = random.from(0, size / length - 1) * length;
        what = "zeros from " + std::to_string(at) + ", " + std::to_string(length) + " bytes";
        std::fill_n(bytes.begin() + at, length, '\0');
        break;
    }
    case 4: {
        const auto at = random.one_in(2) ? random.from(1, pages - 1) * page : random.from(0, size - 1);
        what = "cut off at " + std::to_string(at);
        bytes.resize(static_cast<std::size_t>(at));
        break;
    }
    case 5:
    case 6: {
        const auto a = random.from(0, pages - 1), b = random.from(0, pages - 1);
        const bool swap = random.one_in(2);
        what = std::string(swap ? "swapped" : "copied") + " pages " + std::to_string(a) + ", " + std::to_string(b);
        if (swap)
            std::swap_ranges(bytes.begin() + a * page, bytes.begin() + (a + 1) * page, bytes.begin() + b * page);
        else
            std::memmove(bytes.data() + b * page, bytes.data() + a * page, page);
        break;
    }
    case 7: {
        // a bit of the header of a page, or of the file: of small fields that mean much
        const auto at = random.from(0, pages - 1) * page + random.from(0, 60);
        what = "a bit at " + std::to_string(at);
        bytes[static_cast<std::size_t>(at)] =
            static_cast<char>(bytes[static_cast<std::size_t>(at)] ^ (1 << random.from(0, 7)));
        break;
    }
    default: {
        what = "a journal of other bytes beside it";
        for (auto n = random.from(1, 9000); n > 0; --n) journal += static_cast<char>(random.next());
        const char magic[] = {'\xd9', '\xd5', '\x05', '\xf9', '\x20', '\xa1', '\x63', '\xd7'};
        if (random.one_in(2)) journal.replace(0, 8, magic, 8);
    }
    }
    return {what, [bytes, journal](const std::string& path, std::string&) {
                write(path, bytes);
                if (!journal.empty()) write(path + "-journal", journal);
                return true;
            }};
}

// ---- by SQL

std::string number(Random& random) {
    static const char* const numbers[] = {
        "0",          "1",          "-1",    "2", "9", "4000000000000", "9223372036854775807", "-9223372036854775808",
        "2147483648", "1000000000", "-86400"};
    return numbers[random.from(0, 10)];
}

/// An expression for another value of a column, in terms of its own name.
std::string other_value(Random& random, const Table& t, const Column& c) {
    if (c.may_be_null && random.one_in(4)) return "NULL";
    if (random.one_in(4))
        return "(SELECT " + c.name + " FROM " + t.name + " ORDER BY " + t.key() + " LIMIT 1 OFFSET " +
               std::to_string(random.from(0, 30)) + ")";
    if (c.type == "INTEGER") {
        switch (random.from(0, 3)) {
        case 0: return c.name + " + 1";
        case 1: return c.name + " - 1";
        case 2: return c.name + " * 2 + 1";
        default: return number(random);
        }
    }
    if (c.type == "BLOB") {
        switch (random.from(0, 3)) {
        case 0: return "CAST(substr(" + c.name + ", 2) || x'00' AS BLOB)";
        case 1: return "substr(" + c.name + ", 1, length(" + c.name + ") - 1)";
        case 2: return "zeroblob(" + std::to_string(random.from(0, 200)) + ")";
        default: return "randomblob(length(" + c.name + "))";
        }
    }
    switch (random.from(0, 5)) {
    case 0: return c.name + " || 'x'";
    case 1: return "''";
    case 2: return "replace(" + c.name + ", '1', '2')";
    case 3: return "substr(" + c.name + ", 1, length(" + c.name + ") / 2)";
    case 4: return "replace(" + c.name + ", '\"', '')";
    default: return "CAST(x'c328ff' AS TEXT)";
    }
}

Damage of_rows(Random random) {
    return {"rows, by SQL", [random](const std::string& path, std::string& words) mutable {
                Sql sql(path);
                sql.run("PRAGMA ignore_check_constraints = ON");
                const auto tables = tables_of(sql);
                std::vector<std::string> triggers;
                if (!random.one_in(4)) triggers = sql.drop_triggers();
                const int before = sql.changes();
                for (auto n = random.from(1, 3); n > 0; --n) {
                    const Table& t =
                        tables[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(tables.size()) - 1))];
                    const auto rows =
                        std::max<std::int64_t>(1, std::stoll(sql.column("SELECT count(*) FROM " + t.name).at(0)));
                    const std::string which =
                        "ORDER BY " + t.key() + " LIMIT 1 OFFSET " + std::to_string(random.from(0, rows - 1));
                    const Column& c = t.columns[static_cast<std::size_t>(
                        random.from(0, static_cast<std::int64_t>(t.columns.size()) - 1))];
                    std::string statement;
                    switch (random.from(0, 3)) {
                    case 0: statement = "DELETE FROM " + t.name + " WHERE " + row_where(t, which); break;
                    case 1: {
                        std::string columns;
                        for (const auto& each : t.columns)
                            columns += (columns.empty() ? "" : ", ") +
                                       (each.name == c.name ? other_value(random, t, each)
                                        : each.key && each.type == "INTEGER" && random.one_in(2)
                                            ? "(SELECT max(" + each.name + ") + 1 FROM " + t.name + ")"
                                            : each.name);
                        statement = "INSERT INTO " + t.name + " SELECT " + columns + " FROM " + t.name + " " + which;
                        break;
                    }
                    default:
                        statement = "UPDATE " + t.name + " SET " + c.name + " = " + other_value(random, t, c) +
                                    " WHERE " + row_where(t, which);
                    }
                    words += statement + "; ";
                    std::string said;
                    if (!sql.run(statement, &said)) words += "(" + said + ") ";
                }
                const bool done = sql.changes() != before;
                if (!random.one_in(3))
                    for (const auto& t : triggers) sql.run(t);
                else
                    words += "without triggers";
                return done || !triggers.empty();
            }};
}

Damage of_schema(Random random) {
    return {
        "the schema, by SQL", [random](const std::string& path, std::string& words) mutable {
            Sql sql(path);
            const auto tables = tables_of(sql);
            const auto any = [&](const std::vector<std::string>& all) {
                return all[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(all.size()) - 1))];
            };
            const Table& t =
                tables[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(tables.size()) - 1))];
            const Column& c =
                t.columns[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(t.columns.size()) - 1))];
            const auto other =
                tables[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(tables.size()) - 1))].name;
            const std::string alter = "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET ";
            std::string statement;
            switch (random.from(0, 11)) {
            case 0:
                statement = "DROP TRIGGER " + any(sql.column("SELECT name FROM sqlite_schema WHERE type = 'trigger'"));
                break;
            case 1:
                statement = "DROP INDEX " +
                            any(sql.column("SELECT name FROM sqlite_schema WHERE type = 'index' AND sql <> ''"));
                break;
            case 2: statement = "CREATE VIEW seen AS SELECT * FROM " + t.name; break;
            case 3:
                statement =
                    "ALTER TABLE " + t.name + " RENAME TO kept; CREATE VIEW " + t.name + " AS SELECT * FROM kept";
                break;
            case 4:
                statement = "CREATE TRIGGER more AFTER INSERT ON " + t.name + " BEGIN DELETE FROM balance; END";
                break;
            case 5: statement = "CREATE INDEX more ON " + t.name + " (" + c.name + " DESC)"; break;
            case 6:
                statement = alter + "sql = replace(sql, 'TEXT', 'TEXT COLLATE NOCASE') WHERE name = '" + t.name + "'";
                break;
            case 7:
                statement = alter + "rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = '" + other +
                            "') WHERE name = '" + t.name + "'";
                break;
            case 8:
                statement =
                    alter + "rootpage = " + std::to_string(random.from(0, 90)) + " WHERE name = '" + t.name + "'";
                break;
            case 9:
                statement = "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema WHERE name = '" +
                            any(sql.column("SELECT name FROM sqlite_schema WHERE type <> 'table'")) + "'";
                break;
            case 10: statement = "ALTER TABLE " + t.name + " ADD COLUMN more TEXT"; break;
            default:
                statement =
                    alter + "sql = replace(sql, '" + c.name + "', 'x" + c.name + "') WHERE name = '" + t.name + "'";
                break;
            }
            words = statement;
            std::string said;
            if (!sql.run(statement, &said)) words += " (" + said + ")";
            return said.empty();
        }};
}

}  // namespace

Damage random_damage(std::uint64_t seed, const std::string& bytes) {
    Random random(seed);
    switch (random.from(0, 4)) {
    case 0:
    case 1: return of_bytes(random, bytes);
    case 2:
    case 3: return of_rows(random);
    default: return of_schema(random);
    }
}

namespace {

class Tamperings {
public:
    explicit Tamperings(const std::string& path) : sql_(path), tables_(tables_of(sql_)) {}

    std::vector<Damage> all() {
        for (const auto& t : tables_) {
            if (sql_.column("SELECT count(*) FROM " + t.name).at(0) == "0")
                throw std::runtime_error(t.name + ": no row to tamper with");
            rows_less_and_more(t);
            for (const auto& c : t.columns) other_values(t, c);
            other_schema(t);
        }
        names_less();
        readings_of_another();
        return std::move(out_);
    }

private:
    void add(const std::string& statement, bool without_triggers) {
        out_.push_back({statement + (without_triggers ? " -- triggers taken away and put back" : ""),
                        [=](const std::string& at, std::string& words) {
                            Sql open(at);
                            open.run("PRAGMA ignore_check_constraints = ON");
                            std::vector<std::string> triggers;
                            if (without_triggers) triggers = open.drop_triggers();
                            const int before = open.changes();
                            const bool done = open.run(statement, &words) && open.changes() != before;
                            for (const auto& t : triggers)
                                if (!open.run(t, &words)) throw std::runtime_error(words);
                            return done;
                        }});
    }
    void rows(const std::string& statement) {
        add(statement, false);
        add(statement, true);
    }
    void schema(const std::string& statement) {
        out_.push_back(
            {statement, [=](const std::string& at, std::string& words) { return Sql(at).run(statement, &words); }});
    }
    std::string text_of(const Table& t) {
        return sql_.column("SELECT sql FROM sqlite_schema WHERE name = '" + t.name + "'").at(0);
    }
    /// The text of a table's schema with one thing replaced by another, where it holds that.
    void altered(const Table& t, const std::string& what, const std::string& from, const std::string& to) {
        std::string text = text_of(t);
        const auto found = text.find(from);
        if (found == std::string::npos) return;
        text.replace(found, from.size(), to);
        for (std::size_t i = 0; (i = text.find('\'', i)) != std::string::npos; i += 2) text.insert(i, "'");
        const std::string statement =
            "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = '" + text + "' WHERE name = '" + t.name + "'";
        out_.push_back({t.name + ": " + what,
                        [=](const std::string& at, std::string& words) { return Sql(at).run(statement, &words); }});
    }

    static std::string first_of(const Table& t) { return "ORDER BY " + t.key() + " LIMIT 1"; }
    static std::string last_of(const Table& t) {
        std::string from_last = t.key();
        for (std::size_t at = 0; (at = from_last.find(',', at)) != std::string::npos; at += 6)
            from_last.insert(at, " DESC");
        return "ORDER BY " + from_last + " DESC LIMIT 1";
    }

    /// The first, the last, and the last once more under another key.
    void rows_less_and_more(const Table& t) {
        rows("DELETE FROM " + t.name + " WHERE " + row_where(t, first_of(t)));
        rows("DELETE FROM " + t.name + " WHERE " + row_where(t, last_of(t)));
        for (const auto& k : t.columns) {
            if (!k.key) continue;
            std::string columns;
            for (const auto& c : t.columns)
                columns += (columns.empty() ? "" : ", ") + (c.name != k.name ? c.name
                                                            : k.type == "INTEGER"
                                                                ? "(SELECT max(" + k.name + ") + 1 FROM " + t.name + ")"
                                                                : k.name + " || 'x'");
            rows("INSERT INTO " + t.name + " SELECT " + columns + " FROM " + t.name + " " + last_of(t));
        }
    }

    void other_values(const Table& t, const Column& c) {
        const std::string value =
            c.type == "INTEGER" ? "coalesce(" + c.name + ", 0) + 1"
            : c.type == "BLOB"  ? "CAST(substr(" + c.name + ", 1, length(" + c.name + ") - 1) || x'5a' AS BLOB)"
                                : "coalesce(" + c.name + ", '') || 'x'";
        rows("UPDATE " + t.name + " SET " + c.name + " = " + value + " WHERE " + row_where(t, first_of(t)));
        rows("UPDATE " + t.name + " SET " + c.name + " = " + value + " WHERE " + row_where(t, last_of(t)));
        if (c.may_be_null)
            rows("UPDATE " + t.name + " SET " + c.name + " = NULL WHERE (" + t.key() + ") IN (SELECT " + t.key() +
                 " FROM " + t.name + " WHERE " + c.name + " IS NOT NULL LIMIT 1)");
        if (c.type != "TEXT") return;
        const std::string text = text_of(t);
        const auto name = text.find("  " + c.name + " ");
        const auto type = name == std::string::npos ? name : text.find("TEXT", name);
        if (type == std::string::npos) throw std::runtime_error(t.name + ": no column " + c.name + " in its text");
        const std::string from = text.substr(name, type + 4 - name);
        altered(t, c.name + " without regard to case", from, from + " COLLATE NOCASE");
    }

    void other_schema(const Table& t) {
        schema("CREATE TRIGGER more AFTER INSERT ON " + t.name + " BEGIN DELETE FROM balance; END");
        schema("CREATE VIEW more AS SELECT * FROM " + t.name);
        schema("CREATE INDEX more ON " + t.name + " (" + t.columns.back().name + ")");
        schema("ALTER TABLE " + t.name + " ADD COLUMN more INTEGER");
        schema("ALTER TABLE " + t.name + " RENAME TO more; CREATE VIEW " + t.name + " AS SELECT * FROM more");
        schema("CREATE TABLE more AS SELECT * FROM " + t.name);
        altered(t, "not strict", ") STRICT, ", ") ");
        altered(t, "not strict", ") STRICT", ")");
        altered(t, "a check that holds always", "CHECK (", "CHECK (1 OR ");
        altered(t, "a reference less", "REFERENCES entry", "");
        altered(t, "a column that may be null", "NOT NULL", "");
    }

    /// Triggers and indexes away, or others in their place.
    void names_less() {
        const auto triggers = sql_.column("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
        for (const auto& name : triggers) schema("DROP TRIGGER " + name);
        for (const auto& name : triggers)
            schema("DROP TRIGGER " + name + "; CREATE TRIGGER " + name + " BEFORE INSERT ON " + tables_.front().name +
                   " WHEN 0 BEGIN SELECT 1; END");
        for (const auto& name : sql_.column("SELECT name FROM sqlite_schema WHERE type = 'index' AND sql <> ''"))
            schema("DROP INDEX " + name);
        for (const auto& row :
             sql_.rows("SELECT name, sql FROM sqlite_schema WHERE type = 'index' AND sql LIKE '%WHERE%'"))
            schema("DROP INDEX " + row[0] + "; " + row[1] + " AND 0");
    }

    /// What one person did to another's lists: the readings of one probe stand for those of another.
    void readings_of_another() {
        for (const std::string probe : {"(SELECT max(probe) FROM probe)", "(SELECT min(probe) FROM probe)"})
            rows("INSERT INTO reading_block SELECT " + probe +
                 ", first_at, block, entry, readings, last_at, longest_step, first, last, lowest, highest " +
                 "FROM reading_block WHERE probe <> " + probe +
                 "; UPDATE probe_extent SET longest_block = (SELECT max(longest_block) FROM probe_extent)");
    }

    Sql sql_;
    std::vector<Table> tables_;
    std::vector<Damage> out_;
};

}  // namespace

std::vector<Damage> tamperings(const std::string& path) { return Tamperings(path).all(); }

}  // namespace faults
