#include "ledger/store.hpp"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <future>

#include "coldtally/error.hpp"
#include "entries/parse.hpp"
#include "entries/print.hpp"
#include "ledger/cores.hpp"
#include "ledger/schema.hpp"
#include "ledger/schema_check.hpp"
#include "text/limits.hpp"
#include "words/file.hpp"

namespace coldtally::ledger {

namespace {

// What a row may hold that an entry made; see include/coldtally for the same limits of what is posted.
using limits::first_instant, limits::last_instant;
bool is_32_bit(std::int64_t n) { return n == static_cast<std::int32_t>(n); }

/// Refuses what is no file, before SQLite waits for it or makes one.
void check_file(const std::string& path) {
    struct stat s;
    if (stat(path.c_str(), &s) != 0) {
        if (errno == ENOENT)
            throw Refusal(Code::ledger_missing,
                          words::no_such_ledger(shown_path(path), words::task("site", {{"", "NAME"}, {"", "ZONE"}}),
                                                words::task("post")));
        throw Error(Code::machine, shown_path(path) + ": " + std::strerror(errno));
    }
    if (S_ISDIR(s.st_mode)) throw Error(Code::not_a_ledger, shown_path(path) + ": a folder, not a ledger file");
    if (!S_ISREG(s.st_mode))
        throw Error(Code::not_a_ledger, shown_path(path) + ": a pipe, socket or device, not a ledger file");
}

std::int64_t number_of(Database& db, const char* sql) {
    auto s = db.statement(sql);
    return s.step() ? s.integer(0) : 0;
}

/// Refuses what is no ledger of a format from `oldest` on. Asked under SQLite's lock, when what a killed writer left is
/// taken back: before, a sound file may look cut short.
void check_format(Database& db, std::int64_t oldest) {
    Transaction t(db, Transaction::Kind::read);
    if (number_of(db, "PRAGMA application_id") != application_id)
        throw Error(Code::not_a_ledger, db.shown() + ": not a ledger of coldtally");
    const auto version = number_of(db, "PRAGMA user_version");
    if (version > format_version)
        throw Error(Code::newer_format, db.shown() + ": a ledger of format " + std::to_string(version) +
                                            "; this program reads format " + std::to_string(format_version) +
                                            ": use a newer one");
    if (version < oldest)
        throw Refusal(Code::older_format,
                      words::older_format(db.shown(), version, format_version, words::task("restore")));
    if (version < format_version) return;
    if (const auto found = schema_findings(db); !found.empty())
        db.damaged(found.size() > 1 ? words::schema_changed_more(found.front(), found.size() - 1)
                                    : words::schema_changed(found.front()));
}

Entry stored_entry(const Database& db, EntryNumber number, std::string_view body) {
    try {
        return read_stored(number, body);
    } catch (const Error& error) {
        if (is_machine_failure(error.code())) throw;
        db.damaged(error.what());
    }
}

}  // namespace

Entry read_stored(EntryNumber number, std::string_view body) {
    static const Zone utc("UTC");  // stored instants carry Z
    const std::string where = "entry " + std::to_string(number);
    const auto json = text::Json::parse(body, nullptr, false);
    if (json.is_discarded()) throw Error(Code::damaged, where + ": cannot be read");
    Entry e = entries::parse_entry(json, &utc, where, entries::Form::stored);
    if (e.number != number) throw Error(Code::damaged, where + ": is not what was posted under its number");
    return e;
}

Store Store::open(const std::string& path, bool writable, int wait_ms) {
    check_file(path);
    Store store(std::make_unique<Database>(path, writable ? Database::Access::write : Database::Access::read, wait_ms));
    check_format(store.database(), format_version);
    store.database().execute("PRAGMA foreign_keys = ON");
    // EXTRA: also the folder is synced when the journal goes, so that a commit outlives the loss of power
    if (writable) store.database().execute("PRAGMA synchronous = EXTRA");
    return store;
}

Store Store::open_older(const std::string& path, int wait_ms) {
    check_file(path);
    Store store(std::make_unique<Database>(path, Database::Access::read, wait_ms));
    check_format(store.database(), 1);
    return store;
}

std::int64_t Store::format() const { return number_of(database(), "PRAGMA user_version"); }

namespace {

void make_tables(Database& db) {
    db.execute("BEGIN");
    db.execute(schema_sql);
    db.statement("INSERT INTO tip (one, entry, link) VALUES (1, 0, ?)").bind(first_link()).run();
    db.commit();
}

}  // namespace

Store Store::create(const std::string& path, int wait_ms) {
    Store store(std::make_unique<Database>(path, Database::Access::write, wait_ms));
    auto& db = store.database();
    db.execute("PRAGMA application_id = " + std::to_string(application_id));
    db.execute("PRAGMA user_version = " + std::to_string(format_version));
    db.execute("PRAGMA foreign_keys = ON");
    db.execute("PRAGMA synchronous = EXTRA");
    make_tables(db);
    return store;
}

Store Store::in_memory() {
    Store store(Database::in_memory());
    make_tables(store.database());
    return store;
}

Store::Tip Store::tip() const {
    auto s = database().statement(
        "SELECT t.entry, t.link, e.link, (SELECT max(entry) FROM entry) FROM tip t LEFT JOIN entry e ON e.entry = "
        "t.entry");
    if (!s.step()) database().damaged("the ledger has lost its last link");
    const auto link = s.blob(1);
    const bool agrees = s.integer(0) == 0 ? s.is_null(3) : s.integer(0) == s.integer(3) && link == s.blob(2);
    if (!agrees)
        database().damaged("the last entry is not the one that was posted last, entry " + std::to_string(s.integer(0)));
    return {s.integer(0), Bytes(link.begin(), link.end())};
}

Instant Store::recorded(EntryNumber entry) const {
    auto s = database().statement("SELECT recorded FROM entry WHERE entry = ?");
    if (!s.bind(entry).step()) database().damaged("entry " + std::to_string(entry) + " is missing");
    return Instant(s.integer(0));
}

EntryNumber Store::last_entry_by(Instant known_on) const {
    EntryNumber low = 0, high = tip().entry;  // recorded never decreases
    while (low < high) {
        const EntryNumber mid = low + (high - low + 1) / 2;
        if (recorded(mid) <= known_on)
            low = mid;
        else
            high = mid - 1;
    }
    return low;
}

void Store::check_link(EntryNumber number, std::string_view before, std::string_view body, std::string_view link,
                       bool has_blocks) const {
    std::vector<Bytes> digests;
    if (has_blocks) digests = block_digests(number);
    const Bytes previous = number == 1 ? first_link() : Bytes(before.begin(), before.end());
    if (next_link(previous, body, digests) != Bytes(link.begin(), link.end()))
        database().damaged("entry " + std::to_string(number) + " is altered, or the one before it");
}

std::vector<Bytes> Store::block_digests(EntryNumber number) const {
    auto s = database().statement(
        "SELECT d.digest FROM batch b JOIN reading_data d ON d.block >= b.first_block AND d.block < b.first_block + "
        "b.blocks WHERE b.entry = ? ORDER BY d.block");
    s.bind(number);
    std::vector<Bytes> out;
    while (s.step()) {
        const auto digest = s.blob(0);
        out.emplace_back(digest.begin(), digest.end());
    }
    return out;
}

std::optional<Entry> Store::entry(EntryNumber number, bool with_rows) const {
    auto s = database().statement(
        "SELECT e.body, e.link, p.link, e.kind = 'readings' FROM entry e LEFT JOIN entry p ON p.entry = e.entry - 1 "
        "WHERE e.entry = ?");
    if (!s.bind(number).step()) return std::nullopt;
    check_link(number, s.blob(2), s.text(0), s.blob(1), s.integer(3) != 0);
    Entry e = stored_entry(database(), number, s.text(0));
    if (with_rows)
        if (auto* r = std::get_if<Readings>(&e.fact)) r->rows = batch_rows(number);
    return e;
}

Entry Store::named_entry(EntryNumber number) const {
    auto e = entry(number, false);
    if (!e) database().damaged("entry " + std::to_string(number) + " is missing");
    return std::move(*e);
}

void Store::not_of_kind(EntryNumber number, std::string_view kind) const {
    database().damaged("entry " + std::to_string(number) + " is missing, or is no " + std::string(kind) +
                       " as another table has it");
}

void Store::for_each_body(
    EntryNumber from,
    const std::function<void(EntryNumber, Instant, std::string_view, std::string_view, std::string_view)>& take) const {
    auto s =
        database().statement("SELECT entry, recorded, kind, body, link FROM entry WHERE entry >= ? ORDER BY entry");
    s.bind(from);
    while (s.step()) take(s.integer(0), Instant(s.integer(1)), s.text(2), s.text(3), s.blob(4));
}

void Store::for_each_knowledge(EntryNumber upto, const std::function<void(Entry)>& take) const {
    auto s = database().statement(
        "SELECT k.entry, e.body, e.link, p.link FROM knowledge k LEFT JOIN entry e ON e.entry = k.entry LEFT JOIN "
        "entry p ON p.entry = k.entry - 1"
        " WHERE k.entry <= ? ORDER BY k.entry");
    s.bind(upto);
    while (s.step()) {
        check_link(s.integer(0), s.blob(3), s.text(1), s.blob(2), false);
        take(stored_entry(database(), s.integer(0), s.text(1)));
    }
}

void Store::for_each_duty(std::string_view kind, EntryNumber upto, const std::function<void(Entry)>& take) const {
    // the list is that of the index entry_of_duty, in the same words, or the index is not used
    auto s = database().statement(
        "SELECT e.entry, e.body, e.link, p.link FROM entry e LEFT JOIN entry p ON p.entry = e.entry - 1"
        " WHERE e.kind IN ('plan', 'loan', 'repayment', 'follow-up', 'training') AND e.kind = ? AND e.entry <= ? ORDER "
        "BY e.entry");
    s.bind(kind, upto);
    while (s.step()) {
        check_link(s.integer(0), s.blob(3), s.text(1), s.blob(2), false);
        take(stored_entry(database(), s.integer(0), s.text(1)));
    }
}

// ---- writing

namespace {

/// Of the kinds that only for_each_duty reads.
bool is_duty(const Fact& f) {
    return std::holds_alternative<Plan>(f) || std::holds_alternative<Loan>(f) || std::holds_alternative<Repayment>(f) ||
           std::holds_alternative<FollowUp>(f) || std::holds_alternative<Training>(f);
}

}  // namespace

namespace {

/// The rows of an entry in blocks.
struct EncodedRows {
    std::vector<BlockSummary> summaries;
    std::vector<Bytes> data, digests;
};

EncodedRows encode_rows(const std::vector<Reading>& rows) {
    const std::size_t count = (rows.size() + readings_per_block - 1) / readings_per_block;
    EncodedRows out{std::vector<BlockSummary>(count), std::vector<Bytes>(count), std::vector<Bytes>(count)};
    const auto encode = [&](std::size_t from, std::size_t until) {
        for (std::size_t i = from; i < until; ++i) {
            const auto run = std::span(rows)
                                 .subspan(i * readings_per_block)
                                 .first(std::min(readings_per_block, rows.size() - i * readings_per_block));
            out.summaries[i] = summary_of(run);
            out.data[i] = encode_block(run);
            out.digests[i] = sha256({reinterpret_cast<const char*>(out.data[i].data()), out.data[i].size()});
        }
    };
    // of many blocks half on another core (benchmark import: a twentieth of the time)
    const std::size_t half = count / 2;
    auto second = std::async(beside(count >= 64), encode, half, count);
    encode(0, half);
    second.get();
    return out;
}

}  // namespace

Store::Tip Store::append(const Entry& e, const Tip& before) {
    std::string body;
    EncodedRows blocks;
    const auto* readings = std::get_if<Readings>(&e.fact);
    if (readings) {
        const Entry without{e.number, e.recorded, e.at,
                            e.by,     e.note,     Readings{readings->probe, readings->scale, {}, readings->source}};
        body = to_json(without);
        // the digests are needed for the link, the entry for the blocks: encode first, write after
        blocks = encode_rows(readings->rows);
    } else {
        body = to_json(e);
    }
    Tip after{e.number, next_link(before.link, body, blocks.digests)};
    auto& db = database();
    db.statement("INSERT INTO entry (entry, recorded, kind, body, link) VALUES (?, ?, ?, ?, ?)")
        .bind(e.number, e.recorded->seconds_since_1970(), kind_of(e), body, after.link)
        .run();
    if (readings) {
        auto last = db.statement("SELECT coalesce(max(block), 0) FROM reading_data");
        last.step();
        const std::int64_t first_block = last.integer(0) + 1;
        auto data = db.statement("INSERT INTO reading_data (block, entry, data, digest) VALUES (?, ?, ?, ?)");
        for (std::size_t i = 0; i < blocks.data.size(); ++i)
            data.bind(first_block + static_cast<std::int64_t>(i), e.number, blocks.data[i], blocks.digests[i]).run();
        append_batch(e.number, *readings, static_cast<std::int64_t>(readings->rows.size()), first_block,
                     blocks.summaries);
    }
    append_rows(e);
    return after;
}

void Store::set_tip(const Tip& tip) {
    database().statement("UPDATE tip SET entry = ?, link = ?").bind(tip.entry, tip.link).run();
}

void Store::append_batch(EntryNumber entry, const Readings& readings, std::int64_t rows, std::int64_t first_block,
                         const std::vector<BlockSummary>& blocks) {
    auto& db = database();
    auto probe_id = probe(readings.probe);
    if (!probe_id) {
        db.statement("INSERT INTO probe (name) VALUES (?)").bind(readings.probe).run();
        probe_id = probe(readings.probe);
    }
    std::optional<std::string> file_hash;
    if (readings.source) file_hash = readings.source->sha256;
    db.statement("INSERT INTO batch (entry, probe, first_block, blocks, readings, sha256) VALUES (?, ?, ?, ?, ?, ?)")
        .bind(entry, *probe_id, first_block, static_cast<std::int64_t>(blocks.size()), rows, file_hash)
        .run();
    auto summary = db.statement(
        "INSERT INTO reading_block (probe, first_at, block, entry, readings, last_at, longest_step, first, last, "
        "lowest, highest) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    std::int64_t longest = 0;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const auto& b = blocks[i];
        longest = std::max(longest, b.last_at - b.first_at);
        summary
            .bind(*probe_id, b.first_at, first_block + static_cast<std::int64_t>(i), entry, b.readings, b.last_at,
                  b.longest_step, b.first, b.last, b.lowest, b.highest)
            .run();
    }
    db.statement(
          "INSERT INTO probe_extent (probe, longest_block) VALUES (?, ?) ON CONFLICT (probe) DO UPDATE SET "
          "longest_block = max(longest_block, excluded.longest_block)")
        .bind(*probe_id, longest)
        .run();
}

void Store::append_rows(const Entry& e) {
    auto& db = database();
    if (const auto names = movement_names(e.fact)) {
        const auto lot_id = make_lot(names->product, names->lot);
        std::optional<std::int64_t> source, target;
        if (!names->source_place.empty())
            source = make_holding(lot_id, names->source_place, names->fund, names->source_mark);
        if (!names->target_place.empty())
            target = make_holding(lot_id, names->target_place, names->fund, names->target_mark);
        db.statement(
              "INSERT INTO movement (lot, at, entry, op, source, target, doses, flag) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
            .bind(lot_id, e.at->seconds_since_1970(), e.number, static_cast<int>(names->op), source, target,
                  names->doses, names->flag ? 1 : 0)
            .run();
        if (names->op == MovementOp::receive && names->flag)
            db.statement("INSERT INTO handover (entry, lot) VALUES (?, ?)").bind(e.number, lot_id).run();
        return;
    }
    if (const auto* l = std::get_if<Lot>(&e.fact)) {
        db.statement("INSERT INTO lot_definition (lot, entry, expiry) VALUES (?, ?, ?)")
            .bind(make_lot(l->product, l->lot), e.number, l->expiry)
            .run();
    } else if (const auto* c = std::get_if<Check>(&e.fact)) {
        const auto value = [](const std::optional<Temperature>& t) {
            return t ? std::optional<std::int64_t>(t->thousandths()) : std::nullopt;
        };
        db.statement(
              "INSERT INTO temperature_check (place, at, entry, scale, temperature, lowest, highest, probe) VALUES (?, "
              "?, ?, ?, ?, ?, ?, ?)")
            .bind(c->place, e.at->seconds_since_1970(), e.number, std::string(1, scale_letter(c->temperature.scale())),
                  c->temperature.thousandths(), value(c->min), value(c->max), c->probe)
            .run();
    } else if (const auto* i = std::get_if<Incident>(&e.fact)) {
        db.statement("INSERT INTO incident (entry, incident, place) VALUES (?, ?, ?)")
            .bind(e.number, i->incident, i->place)
            .run();
    } else if (!std::holds_alternative<Readings>(e.fact) && !is_duty(e.fact)) {
        db.statement("INSERT INTO knowledge (entry) VALUES (?)").bind(e.number).run();
    }
}

// ---- lots, holdings, movements

std::optional<std::int64_t> Store::lot(const std::string& product, const std::string& number) const {
    auto s = database().statement("SELECT lot FROM lot WHERE product = ? AND number = ?");
    if (!s.bind(product, number).step()) return std::nullopt;
    return s.integer(0);
}

std::int64_t Store::make_lot(const std::string& product, const std::string& number) {
    if (const auto there = lot(product, number)) return *there;
    database().statement("INSERT INTO lot (product, number) VALUES (?, ?)").bind(product, number).run();
    return *lot(product, number);
}

namespace {

std::vector<Store::LotRow> lot_rows(Statement& s) {
    std::vector<Store::LotRow> out;
    while (s.step()) out.push_back({s.integer(0), std::string(s.text(1)), std::string(s.text(2))});
    return out;
}

}  // namespace

std::vector<Store::LotRow> Store::lots() const {
    auto s = database().statement("SELECT lot, product, number FROM lot ORDER BY product, number");
    return lot_rows(s);
}

std::vector<Store::LotRow> Store::lots_in_stock() const {
    auto s = database().statement(
        "SELECT lot, product, number FROM lot WHERE lot IN (SELECT h.lot FROM balance b JOIN holding h ON h.holding = "
        "b.holding WHERE b.doses > 0) ORDER BY product, number");
    return lot_rows(s);
}

std::vector<Store::LotRow> Store::lots_in_place(const std::string& place) const {
    auto s = database().statement(
        "SELECT lot, product, number FROM lot WHERE lot IN (SELECT lot FROM holding WHERE place = ?) ORDER BY product, "
        "number");
    s.bind(place);
    return lot_rows(s);
}

std::vector<HoldingRow> Store::holdings(std::int64_t lot) const {
    auto s = database().statement("SELECT holding, place, fund, mark FROM holding WHERE lot = ?");
    s.bind(lot);
    std::vector<HoldingRow> out;
    while (s.step())
        out.push_back({s.integer(0), std::string(s.text(1)), std::string(s.text(2)), std::string(s.text(3))});
    return out;
}

std::vector<std::pair<EntryNumber, std::string>> Store::lot_definitions(std::int64_t lot) const {
    auto s = database().statement("SELECT entry, expiry FROM lot_definition WHERE lot = ? ORDER BY entry");
    s.bind(lot);
    std::vector<std::pair<EntryNumber, std::string>> out;
    while (s.step()) out.emplace_back(s.integer(0), std::string(s.text(1)));
    return out;
}

namespace {

/// Could an entry have made this row? Sums of it stay far within 64 bits then, and what it names is named.
bool possible(const Movement& m, std::int64_t op) {
    constexpr auto first = static_cast<std::int64_t>(MovementOp::receive),
                   last = static_cast<std::int64_t>(MovementOp::beyond_use);
    const bool arrives = m.op == MovementOp::receive || m.op == MovementOp::move;
    const bool leaves = m.op != MovementOp::receive;
    return op >= first && op <= last && m.at >= first_instant && m.at <= last_instant && m.entry >= 1 && m.doses >= 0 &&
           m.doses <= limits::doses && (m.source > 0) == leaves && (m.target > 0) == arrives;
}

}  // namespace

std::vector<Movement> Store::movements(std::int64_t lot) const {
    auto s = database().statement(
        "SELECT at, entry, op, source, target, doses, flag FROM movement WHERE lot = ? ORDER BY at, entry");
    s.bind(lot);
    std::vector<Movement> out;
    while (s.step()) {  // an absent holding reads as 0
        const Movement m{s.integer(0),     s.integer(1), static_cast<MovementOp>(s.integer(2)),
                         s.integer(3),     s.integer(4), s.integer(5),
                         s.integer(6) != 0};
        if (!possible(m, s.integer(2)))
            database().damaged("the movement of entry " + std::to_string(m.entry) + " is not one that was posted");
        out.push_back(m);
    }
    counters_.movements_read += static_cast<std::int64_t>(out.size());
    return out;
}

std::optional<std::int64_t> Store::holding(std::int64_t lot, const std::string& place, const std::string& fund,
                                           const std::string& mark) const {
    auto s = database().statement("SELECT holding FROM holding WHERE lot = ? AND place = ? AND fund = ? AND mark = ?");
    if (!s.bind(lot, place, fund, mark).step()) return std::nullopt;
    return s.integer(0);
}

std::int64_t Store::make_holding(std::int64_t lot, const std::string& place, const std::string& fund,
                                 const std::string& mark) {
    if (const auto there = holding(lot, place, fund, mark)) return *there;
    database()
        .statement("INSERT INTO holding (lot, place, fund, mark) VALUES (?, ?, ?, ?)")
        .bind(lot, place, fund, mark)
        .run();
    return *holding(lot, place, fund, mark);
}

Store::Balance Store::balance(std::int64_t holding) const {
    auto s = database().statement("SELECT doses, last_at FROM balance WHERE holding = ?");
    if (!s.bind(holding).step()) return {};
    return {s.integer(0), s.integer(1)};
}

void Store::set_balance(std::int64_t holding, const Balance& b) {
    database()
        .statement(
            "INSERT INTO balance (holding, doses, last_at) VALUES (?, ?, ?) ON CONFLICT (holding) DO UPDATE SET doses "
            "= excluded.doses, last_at = excluded.last_at")
        .bind(holding, b.doses, b.last_at)
        .run();
}

std::vector<std::pair<EntryNumber, std::int64_t>> Store::handovers() const {
    auto s = database().statement("SELECT entry, lot FROM handover ORDER BY entry");
    std::vector<std::pair<EntryNumber, std::int64_t>> out;
    while (s.step()) out.emplace_back(s.integer(0), s.integer(1));
    return out;
}

// ---- temperatures

std::vector<CheckRow> Store::checks(const std::string& place, std::int64_t from) const {
    std::vector<CheckRow> out;
    for_each_check(place, from, [&](const CheckRow& row) { out.push_back(row); });
    return out;
}

namespace {

/// Of a statement that selects at, entry, scale, temperature, lowest, highest, probe.
void read_check(const Database& database, const Statement& s, CheckRow& row) {
    const auto maybe = [&](int column) {
        return s.is_null(column) ? std::nullopt
                                 : std::optional<std::int32_t>(static_cast<std::int32_t>(s.integer(column)));
    };
    row.at = s.integer(0);
    row.entry = s.integer(1);
    if (row.at < first_instant || row.at > last_instant || !is_32_bit(s.integer(3)) || !is_32_bit(s.integer(4)) ||
        !is_32_bit(s.integer(5)))
        database.damaged("the check of entry " + std::to_string(row.entry) + " is not one that was posted");
    row.scale = s.text(2) == "F" ? Scale::F : Scale::C;
    row.temperature = static_cast<std::int32_t>(s.integer(3));
    row.lowest = maybe(4);
    row.highest = maybe(5);
    if (s.is_null(6))
        row.probe.reset();
    else
        row.probe = s.text(6);
}

}  // namespace

void Store::for_each_check(const std::string& place, std::int64_t from,
                           const std::function<void(const CheckRow&)>& take) const {
    auto s = database().statement(
        "SELECT at, entry, scale, temperature, lowest, highest, probe FROM temperature_check WHERE place = ? AND at >= "
        "? ORDER BY at, entry");
    s.bind(place, from);
    CheckRow row;
    while (s.step()) {
        read_check(database(), s, row);
        take(row);
    }
}

std::optional<CheckRow> Store::first_check(const std::string& place,
                                           const std::function<bool(EntryNumber)>& is_known) const {
    auto s = database().statement(
        "SELECT at, entry, scale, temperature, lowest, highest, probe FROM temperature_check WHERE place = ? "
        "ORDER BY at, entry");
    s.bind(place);
    std::optional<CheckRow> out;
    CheckRow row;
    while (s.step()) {
        read_check(database(), s, row);
        if (out && row.at > out->at) break;
        if (is_known(row.entry)) out = row;
    }
    return out;
}

std::optional<std::int64_t> Store::check_before(const std::string& place, std::int64_t t,
                                                const std::function<bool(EntryNumber)>& is_known) const {
    auto s = database().statement(
        "SELECT at, entry FROM temperature_check WHERE place = ? AND at < ? ORDER BY at DESC, entry DESC");
    s.bind(place, t);
    while (s.step())
        if (is_known(s.integer(1))) return s.integer(0);
    return std::nullopt;
}

std::optional<Scale> Store::last_check_scale(const std::string& place) const {
    auto s = database().statement(
        "SELECT scale FROM temperature_check WHERE place = ? ORDER BY at DESC, entry DESC LIMIT 1");
    if (!s.bind(place).step()) return std::nullopt;
    return s.text(0) == "F" ? Scale::F : Scale::C;
}

std::optional<std::int64_t> Store::first_movement(std::int64_t lot) const {
    auto s = database().statement("SELECT at FROM movement WHERE lot = ? ORDER BY at LIMIT 1");
    if (!s.bind(lot).step()) return std::nullopt;
    return s.integer(0);
}

std::optional<std::int64_t> Store::probe(const std::string& name) const {
    auto s = database().statement("SELECT probe FROM probe WHERE name = ?");
    if (!s.bind(name).step()) return std::nullopt;
    return s.integer(0);
}

namespace {

bool possible(const BlockRow& b) {
    const auto& s = b.summary;
    return b.block >= 1 && b.entry >= 1 && s.readings >= 1 &&
           s.readings <= static_cast<std::int64_t>(readings_per_block) && s.first_at >= first_instant &&
           s.last_at <= last_instant && s.first_at <= s.last_at && s.longest_step >= 0 &&
           s.longest_step <= s.last_at - s.first_at;
}

}  // namespace

std::vector<BlockRow> Store::blocks(std::int64_t probe, std::int64_t from) const {
    auto s = database().statement(
        "SELECT first_at, block, entry, readings, last_at, longest_step, first, last, lowest, highest FROM "
        "reading_block WHERE probe = ?1"
        " AND first_at >= ?2 - (SELECT longest_block FROM probe_extent WHERE probe = ?1) ORDER BY first_at, block");
    s.bind(probe, from);
    std::vector<BlockRow> out;
    while (s.step()) {
        BlockRow b;
        b.block = s.integer(1);
        b.entry = s.integer(2);
        b.summary.first_at = s.integer(0);
        b.summary.readings = s.integer(3);
        b.summary.last_at = s.integer(4);
        b.summary.longest_step = s.integer(5);
        b.summary.first = static_cast<std::int32_t>(s.integer(6));
        b.summary.last = static_cast<std::int32_t>(s.integer(7));
        b.summary.lowest = static_cast<std::int32_t>(s.integer(8));
        b.summary.highest = static_cast<std::int32_t>(s.integer(9));
        if (!possible(b) ||
            !(is_32_bit(s.integer(6)) && is_32_bit(s.integer(7)) && is_32_bit(s.integer(8)) && is_32_bit(s.integer(9))))
            database().damaged("the summary of block " + std::to_string(b.block) +
                               " of readings is not that of a block");
        out.push_back(b);
    }
    return out;
}

void Store::with_block(std::int64_t block, const std::function<std::size_t(std::string_view)>& decode) const {
    auto s = database().statement("SELECT data, digest FROM reading_data WHERE block = ?");
    const auto name = [&] { return "block " + std::to_string(block) + " of readings"; };
    if (!s.bind(block).step()) database().damaged(name() + " is missing");
    const auto digest = s.blob(1);
    if (sha256(s.blob(0)) != Bytes(digest.begin(), digest.end())) database().damaged(name() + " is altered");
    try {
        counters_.readings_decoded += static_cast<std::int64_t>(decode(s.blob(0)));
    } catch (const Error&) {
        database().damaged(name() + " cannot be decoded");
    }
    ++counters_.blocks_decoded;
}

void Store::read_block(std::int64_t block, std::vector<Reading>& out) const {
    with_block(block, [&](std::string_view data) {
        const auto before = out.size();
        decode_block(data, out);
        return out.size() - before;
    });
}

void Store::read_block_over(std::int64_t block, std::vector<Reading>& out) const {
    with_block(block, [&](std::string_view data) {
        decode_block_over(data, out);
        return out.size();
    });
}

std::vector<Reading> Store::batch_rows(EntryNumber entry) const {
    auto s = database().statement("SELECT first_block, blocks FROM batch WHERE entry = ?");
    std::vector<Reading> out;
    if (!s.bind(entry).step()) return out;
    for (std::int64_t i = 0; i < s.integer(1); ++i)
        read_block(s.integer(0) + i, out);  // ends at the first that is not there
    return out;
}

Store::BatchSpan Store::batch_span(EntryNumber entry) const {
    auto s = database().statement("SELECT first_block, blocks, readings FROM batch WHERE entry = ?");
    if (!s.bind(entry).step() || s.integer(1) < 1)
        database().damaged("entry " + std::to_string(entry) + " is missing, or has no readings");
    std::vector<Reading> first, last;
    read_block(s.integer(0), first);
    read_block(s.integer(0) + s.integer(1) - 1, last);
    if (first.empty() || last.empty())
        database().damaged("readings of entry " + std::to_string(entry) + " are missing");
    return {s.integer(2), first.front().at.seconds_since_1970(), last.back().at.seconds_since_1970()};
}

std::vector<EntryNumber> Store::batches_of_file(const std::string& sha256) const {
    auto s = database().statement("SELECT entry FROM batch WHERE sha256 = ? ORDER BY entry");
    s.bind(sha256);
    std::vector<EntryNumber> out;
    while (s.step()) out.push_back(s.integer(0));
    return out;
}

// ---- who names what

namespace {

std::vector<EntryNumber> column(Statement s) {
    std::vector<EntryNumber> out;
    while (s.step()) out.push_back(s.integer(0));
    return out;
}

}  // namespace

std::vector<EntryNumber> Store::incident_entries() const {
    return column(database().statement("SELECT entry FROM incident ORDER BY entry"));
}

bool Store::incident_named(const std::string& incident, const std::function<bool(EntryNumber)>& is_known) const {
    auto s = database().statement("SELECT entry FROM incident WHERE incident = ?");
    s.bind(incident);
    while (s.step())
        if (is_known(s.integer(0))) return true;
    return false;
}

std::vector<EntryNumber> Store::moved_since(const std::string& place, EntryNumber after, std::int64_t upto) const {
    auto s = database().statement(
        "SELECT entry FROM movement WHERE lot IN (SELECT lot FROM holding WHERE place = ?) AND at <= ? AND entry > ?");
    s.bind(place, upto, after);
    return column(std::move(s));
}

std::vector<EntryNumber> Store::entries_naming_place(const std::string& place) const {
    auto s = database().statement(
        "SELECT entry FROM temperature_check WHERE place = ?1"
        " UNION SELECT entry FROM incident WHERE place = ?1"
        " UNION SELECT m.entry FROM holding h JOIN movement m ON m.lot = h.lot AND (m.source = h.holding OR m.target = "
        "h.holding) WHERE h.place = ?1");
    s.bind(place);
    return column(std::move(s));
}

std::vector<EntryNumber> Store::entries_naming_probe(const std::string& probe) const {
    auto s = database().statement(
        "SELECT entry FROM temperature_check WHERE probe = ?1 UNION SELECT b.entry FROM batch b JOIN probe p ON "
        "p.probe = b.probe WHERE p.name = ?1");
    s.bind(probe);
    return column(std::move(s));
}

std::vector<EntryNumber> Store::movements_of(std::int64_t lot) const {
    auto s = database().statement("SELECT entry FROM movement WHERE lot = ?");
    s.bind(lot);
    return column(std::move(s));
}

}  // namespace coldtally::ledger
