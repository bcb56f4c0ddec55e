#include "ledger/verify.hpp"

#include <array>
#include <unordered_set>

#include "coldtally/error.hpp"
#include "entries/parse.hpp"

namespace coldtally::ledger {

namespace {

std::string entry_name(EntryNumber n) { return "entry " + std::to_string(n); }

/// Tables made from the entries, with all their columns as one text a row, in an order that both sides share.
struct Derived {
    const char* name;
    const char* rows;
};
constexpr std::array derived{
    Derived{"knowledge", "SELECT entry FROM knowledge ORDER BY entry"},
    Derived{"lot", "SELECT lot || ' ' || quote(product) || ' ' || quote(number) FROM lot ORDER BY lot"},
    Derived{"lot_definition", "SELECT lot || ' ' || entry || ' ' || quote(expiry) FROM lot_definition ORDER BY lot, entry"},
    Derived{"holding", "SELECT holding || ' ' || lot || ' ' || quote(place) || ' ' || quote(fund) || ' ' || quote(mark) FROM holding ORDER BY holding"},
    Derived{"movement", "SELECT lot || ' ' || at || ' entry ' || entry || ' ' || op || ' ' || quote(source) || ' ' || quote(target) || ' ' || doses || ' ' || flag FROM movement ORDER BY lot, at, entry"},
    Derived{"balance", "SELECT 'holding ' || holding || ' doses ' || doses || ' at ' || last_at FROM balance ORDER BY holding"},
    Derived{"handover", "SELECT entry || ' ' || lot FROM handover ORDER BY entry"},
    Derived{"temperature_check", "SELECT quote(place) || ' ' || at || ' entry ' || entry || ' ' || scale || ' ' || temperature || ' ' || quote(lowest) || ' ' || quote(highest) || ' ' || quote(probe) FROM temperature_check ORDER BY place, at, entry"},
    Derived{"incident", "SELECT entry || ' ' || quote(incident) || ' ' || quote(place) FROM incident ORDER BY entry"},
};

class Verifier {
public:
    explicit Verifier(const Store& store) : store_(store), again_(Store::create(":memory:", 0)) {
        again_.database().execute("PRAGMA foreign_keys = OFF");  // its rows stand without their entries
    }

    Verification run() {
        pages();
        entries();
        readings_without_entry();
        extents();
        balances();
        tables();
        return std::move(out_);
    }

private:
    void find(std::string what) { out_.findings.push_back(std::move(what)); }

    void pages() {
        auto s = store_.database().statement("PRAGMA integrity_check(20)");
        while (s.step())
            if (s.text(0) != "ok") find("file: " + std::string(s.text(0)));
    }

    void entries() {
        Bytes before = first_link();
        EntryNumber expected = 1;
        Instant last_recorded(INT64_MIN);
        static const Zone utc("UTC");
        store_.for_each_body(1, [&](EntryNumber n, Instant recorded, std::string_view kind, std::string_view body, std::string_view link) {
            for (; expected < n; ++expected) find(entry_name(expected) + ": missing");
            expected = n + 1;
            ++out_.entries;
            if (recorded < last_recorded) find(entry_name(n) + ": recorded before the entry before it");
            last_recorded = recorded;
            const auto digests = blocks_of(n);
            const Bytes stored(link.begin(), link.end());
            if (next_link(before, body, digests) != stored) find(entry_name(n) + ": altered: it is not what was posted after entry " + std::to_string(n - 1));
            before = stored;
            try {
                Entry e = entries::parse_entry(text::parse_json(body, entry_name(n)), &utc, entry_name(n), entries::Form::stored);
                if (e.number != n || *e.recorded != recorded || kind_of(e) != kind) find(entry_name(n) + ": altered: its number, kind or instant of recording is not that of its text");
                if (const auto* v = std::get_if<Void>(&e.fact)) voided_.insert(v->voids);
                again_.append_rows(e);
                batch(n, e);
            } catch (const Error& error) {
                find(std::string(error.what()));
            }
        });
        const auto tip = store_.tip();
        for (; expected <= tip.entry; ++expected) find(entry_name(expected) + ": missing");
        if (tip.entry + 1 < expected) find("tip: names entry " + std::to_string(tip.entry) + " as the last");
        if (tip.link != before) find("tip: the last link is not that of " + entry_name(out_.entries));
        out_.chain = hexadecimal(before);
    }

    /// Digests of an entry's blocks, in their order; each block is checked against its own.
    std::vector<Bytes> blocks_of(EntryNumber n) {
        std::vector<Bytes> digests;
        auto s = store_.database().statement("SELECT block, data, digest FROM reading_data WHERE block >= (SELECT first_block FROM batch WHERE entry = ?1) AND block < (SELECT first_block + blocks FROM batch WHERE entry = ?1) ORDER BY block");
        s.bind(n);
        while (s.step()) {
            const auto digest = s.blob(2);
            digests.emplace_back(digest.begin(), digest.end());
            if (sha256(s.blob(1)) != digests.back()) find(entry_name(n) + ": block " + std::to_string(s.integer(0)) + " of its readings is altered" + block_span(s.integer(0)));
        }
        return digests;
    }

    std::string block_span(std::int64_t block) {
        auto s = store_.database().statement("SELECT min(first_at), max(last_at) FROM reading_block WHERE block = ?");
        s.bind(block);
        if (!s.step() || s.is_null(0)) return {};
        return " (" + Instant(s.integer(0)).text() + " to " + Instant(s.integer(1)).text() + ")";
    }

    void batch(EntryNumber n, const Entry& e) {
        auto s = store_.database().statement("SELECT p.name, b.first_block, b.blocks, b.readings, b.sha256 FROM batch b JOIN probe p ON p.probe = b.probe WHERE b.entry = ?");
        const bool there = s.bind(n).step();
        const auto* r = std::get_if<Readings>(&e.fact);
        if (there != (r != nullptr)) find(entry_name(n) + (there ? ": has readings but is of another kind" : ": its readings are missing"));
        if (!there || !r) return;
        std::int64_t readings = 0;
        for (std::int64_t i = 0; i < s.integer(2); ++i) {
            const std::int64_t block = s.integer(1) + i;
            std::vector<Reading> rows;
            try {
                store_.read_block(block, rows);
            } catch (const Error& error) {
                find(entry_name(n) + ": " + error.what());
                continue;
            }
            readings += static_cast<std::int64_t>(rows.size());
            if (!summary_agrees(block, n, s.text(0), summary_of(rows))) find(entry_name(n) + ": block " + std::to_string(block) + ": its summary is not that of its readings");
        }
        const std::string hash = r->source ? r->source->sha256 : "";
        if (s.text(0) != r->probe || s.integer(3) != readings || s.text(4) != hash) find(entry_name(n) + ": its row in batch does not agree with it");
        out_.readings += readings;
    }

    bool summary_agrees(std::int64_t block, EntryNumber n, std::string_view probe, const BlockSummary& b) {
        auto s = store_.database().statement(
            "SELECT 1 FROM reading_block r JOIN probe p ON p.probe = r.probe WHERE p.name = ? AND r.first_at = ? AND r.block = ? AND r.entry = ? AND r.readings = ? AND r.last_at = ? AND r.longest_step = ? AND r.first = ? AND r.last = ? AND r.lowest = ? AND r.highest = ?");
        s.bind(probe, b.first_at, block, n, b.readings, b.last_at, b.longest_step, b.first, b.last, b.lowest, b.highest);
        return s.step();
    }

    void extents() {
        auto s = store_.database().statement(
            "SELECT p.name FROM probe p LEFT JOIN probe_extent e ON e.probe = p.probe WHERE e.longest_block IS NOT (SELECT max(last_at - first_at) FROM reading_block r WHERE r.probe = p.probe)");
        while (s.step()) find("probe_extent: the longest block of probe " + std::string(s.text(0)) + " is not what its blocks say");
    }

    void readings_without_entry() {
        auto s = store_.database().statement("SELECT block FROM reading_data d WHERE NOT EXISTS (SELECT 1 FROM batch b WHERE b.entry = d.entry AND d.block >= b.first_block AND d.block < b.first_block + b.blocks)");
        while (s.step()) find("block " + std::to_string(s.integer(0)) + " of readings belongs to no entry");
        auto extra = store_.database().statement("SELECT block FROM reading_block WHERE block NOT IN (SELECT block FROM reading_data)");
        while (extra.step()) find("summary of block " + std::to_string(extra.integer(0)) + " has no readings");
    }

    void balances() {
        for (const auto& lot : again_.lots()) {
            StockWalk walk;
            std::unordered_map<std::int64_t, std::int64_t> last_at;
            for (const auto& m : again_.movements(lot.lot)) {
                // a holding that any movement names has a balance, also where a void left it without movements
                if (m.op != MovementOp::beyond_use)
                    for (const auto h : {m.source, m.target})
                        if (h) last_at.try_emplace(h, INT64_MIN);
                if (voided_.contains(m.entry)) continue;
                if (const auto against = walk.apply(m); !against.empty()) find(entry_name(m.entry) + ": " + against);
                if (m.op == MovementOp::beyond_use) continue;
                for (const auto h : {m.source, m.target})
                    if (h) last_at[h] = m.at;
            }
            for (const auto& [holding, at] : last_at) again_.set_balance(holding, {walk.doses(holding), at});
        }
    }

    void tables() {
        for (const auto& table : derived) {
            auto mine = store_.database().statement(table.rows);
            auto made = again_.database().statement(table.rows);
            bool a = mine.step(), b = made.step();
            int told = 0;
            const auto tell = [&](std::string_view row, const char* what) {
                if (++told <= 5) find(std::string(table.name) + ": " + std::string(row) + ": " + what);
            };
            while (a || b) {
                if (a && b && mine.text(0) == made.text(0)) {
                    a = mine.step();
                    b = made.step();
                    continue;
                }
                if (a) tell(mine.text(0), "is not what the entries say");
                if (b) tell(made.text(0), "is what the entries say, and is not there");
                if (a) a = mine.step();
                if (b) b = made.step();
            }
            if (told > 5) find(std::string(table.name) + ": " + std::to_string(told - 5) + " more rows disagree");
        }
    }

    const Store& store_;
    Store again_;  // the derived rows, made anew from the entries
    std::unordered_set<EntryNumber> voided_;
    Verification out_;
};

}  // namespace

Verification verify(const Store& store) { return Verifier(store).run(); }

}  // namespace coldtally::ledger
