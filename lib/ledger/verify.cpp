#include "ledger/verify.hpp"

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "coldtally/error.hpp"
#include "ledger/schema_check.hpp"
#include "words/file.hpp"
#include "words/general.hpp"

namespace coldtally::ledger {

namespace {

/// Tables made from the entries, with all their columns as one text a row, in an order that both sides share.
struct Derived {
    const char* name;
    const char* rows;
};
constexpr std::array derived{
    Derived{"knowledge", "SELECT quote(entry) FROM knowledge ORDER BY entry"},
    Derived{"lot", "SELECT quote(lot) || ' ' || quote(product) || ' ' || quote(number) FROM lot ORDER BY lot"},
    Derived{"lot_definition",
            "SELECT quote(lot) || ' ' || quote(entry) || ' ' || quote(expiry) FROM lot_definition ORDER BY lot, entry"},
    Derived{"holding",
            "SELECT quote(holding) || ' ' || quote(lot) || ' ' || quote(place) || ' ' || quote(fund) || ' ' || "
            "quote(mark) FROM holding ORDER BY holding"},
    Derived{"movement",
            "SELECT quote(lot) || ' ' || quote(at) || ' entry ' || quote(entry) || ' ' || quote(op) || ' ' || "
            "quote(source) || ' ' || quote(target) || ' ' || quote(doses) || ' ' || quote(flag) FROM movement ORDER BY "
            "lot, at, entry"},
    Derived{"balance",
            "SELECT 'holding ' || quote(holding) || ' doses ' || quote(doses) || ' at ' || quote(last_at) FROM balance "
            "ORDER BY holding"},
    Derived{"handover", "SELECT quote(entry) || ' ' || quote(lot) FROM handover ORDER BY entry"},
    Derived{"temperature_check",
            "SELECT quote(place) || ' ' || quote(at) || ' entry ' || quote(entry) || ' ' || quote(scale) || ' ' || "
            "quote(temperature) || ' ' || quote(lowest) || ' ' || quote(highest) || ' ' || quote(probe) FROM "
            "temperature_check ORDER BY place, at, entry"},
    Derived{"incident",
            "SELECT quote(entry) || ' ' || quote(incident) || ' ' || quote(place) FROM incident ORDER BY entry"},
    Derived{"probe", "SELECT quote(probe) || ' ' || quote(name) FROM probe ORDER BY probe"},
    Derived{"batch",
            "SELECT 'entry ' || quote(entry) || ' ' || quote(probe) || ' ' || quote(first_block) || ' ' || "
            "quote(blocks) || ' ' || quote(readings) || ' ' || quote(sha256) FROM batch ORDER BY entry"},
    Derived{"probe_extent", "SELECT quote(probe) || ' ' || quote(longest_block) FROM probe_extent ORDER BY probe"},
    Derived{"reading_block",
            "SELECT 'block ' || quote(block) || ' of entry ' || quote(entry) || ' ' || quote(probe) || ' ' || "
            "quote(first_at) || ' ' || quote(readings) || ' ' || quote(last_at) || ' ' || quote(longest_step) || ' ' "
            "|| quote(first) || ' ' || quote(last) || ' ' || quote(lowest) || ' ' || quote(highest) FROM reading_block "
            "ORDER BY probe, first_at, block"},
};

class Verifier {
public:
    Verifier(const Store& store, const std::optional<NotedLink>& noted)
        : store_(store), noted_(noted), again_(Store::in_memory()) {}

    Verification run() {
        for (auto& what : schema_findings(store_.database())) find(words::file_finding(std::move(what)));
        pages();
        entries();
        readings_without_entry();
        balances();
        tables();
        if (out_.findings_in_all > most_told)
            out_.findings.push_back(words::findings_more(out_.findings_in_all - most_told));
        return std::move(out_);
    }

private:
    static constexpr std::int64_t most_told = 100;

    /// Counts it, and keeps the first hundred.
    void find(Remark what) {
        if (++out_.findings_in_all <= most_told) out_.findings.push_back(std::move(what));
    }

    void pages() {
        auto s = store_.database().statement("PRAGMA integrity_check(100)");
        while (s.step())
            if (s.text(0) != "ok") find(words::file_finding(s.text(0)));
    }

    /// The entries after `last` and before `next`; a file may claim any numbers, up to the largest of 64 bits.
    void missing(EntryNumber last, EntryNumber next) {
        if (next <= last || next - last == 1) return;
        find(next - last == 2 ? words::entry_missing(last + 1) : words::entries_missing(last + 1, next - 1));
    }

    void entries() {
        Bytes before = first_link();
        EntryNumber last = 0;
        Instant last_recorded(INT64_MIN);
        store_.for_each_body(1, [&](EntryNumber n, Instant recorded, std::string_view kind, std::string_view body,
                                    std::string_view link) {
            missing(last, n);
            last = n;
            ++out_.entries;
            if (recorded < last_recorded) find(words::recorded_before(n));
            last_recorded = recorded;
            const Bytes stored(link.begin(), link.end());
            if (next_link(before, body, store_.block_digests(n)) != stored)
                find(words::entry_altered(n, n - 1));
            before = stored;
            if (noted_ && noted_->entry == n) against_noted(stored);
            try {
                const Entry e = read_stored(n, body);
                if (*e.recorded != recorded || kind_of(e) != kind)
                    find(words::entry_row_altered(n));
                if (const auto* v = std::get_if<Void>(&e.fact)) voided_.insert(v->voids);
                again_.append_rows(e);
                if (const auto* r = std::get_if<Readings>(&e.fact)) readings(n, *r);
            } catch (const Error& error) {
                if (is_machine_failure(error.code()))
                    throw;  // of a disk or of zone data that are not there, and no word on the ledger
                find(words::as_said(error.what()));
            }
        });
        // tip() itself refuses one that does not agree
        auto tip = store_.database().statement("SELECT entry, link FROM tip");
        if (!tip.step()) {
            find(words::tip_missing);
        } else {
            if (tip.integer(0) > last) missing(last, tip.integer(0) == INT64_MAX ? INT64_MAX : tip.integer(0) + 1);
            if (tip.integer(0) < last) find(words::tip_names(tip.integer(0)));
            const auto link = tip.blob(1);
            if (Bytes(link.begin(), link.end()) != before) find(words::tip_of_another(last));
        }
        if (noted_ && noted_->entry > last) find(words::noted_not_there(noted_->entry));
        out_.chain = hexadecimal(before);
    }

    void against_noted(const Bytes& link) {
        const std::string now = hexadecimal(link);
        if (!now.starts_with(noted_->digits))
            find(words::noted_other_link(noted_->entry, noted_->digits, now.substr(0, noted_->digits.size())));
    }

    /// The readings of an entry: each block against its digest, and the rows that are made of them.
    void readings(EntryNumber n, const Readings& r) {
        std::vector<BlockSummary> summaries;
        std::int64_t rows = 0;
        std::vector<Reading> block;
        auto s = store_.database().statement(
            "SELECT d.block, d.data, d.digest, d.entry FROM batch b JOIN reading_data d ON d.block >= b.first_block "
            "AND d.block < b.first_block + b.blocks"
            " WHERE b.entry = ? ORDER BY d.block");
        s.bind(n);
        while (s.step()) {
            const Remark name = words::block_of_entry(n, s.integer(0));
            const auto digest = s.blob(2);
            if (s.integer(0) != blocks_seen_ + static_cast<std::int64_t>(summaries.size()) + 1)
                find(words::block_out_of_order(name));
            if (s.integer(3) != n) find(words::block_of_another(name));
            if (sha256(s.blob(1)) != Bytes(digest.begin(), digest.end()))
                find(with_span(words::block_altered(name), s.integer(0)));
            try {
                decode_block_over(s.blob(1), block);
                summaries.push_back(summary_of(block));
                rows += summaries.back().readings;
            } catch (const Error&) {
                find(with_span(words::block_not_decoded(name), s.integer(0)));
            }
        }
        if (summaries.empty()) find(words::readings_missing(n));
        out_.readings += rows;
        again_.append_batch(n, r, rows, blocks_seen_ + 1, summaries);
        blocks_seen_ += static_cast<std::int64_t>(summaries.size());
    }

    /// With from when to when the readings of the block are, where that is known.
    Remark with_span(Remark what, std::int64_t block) {
        auto s = store_.database().statement("SELECT min(first_at), max(last_at) FROM reading_block WHERE block = ?");
        s.bind(block);
        if (!s.step() || s.is_null(0)) return what;
        return words::in_brackets(std::move(what),
                                  words::from_to(Instant(s.integer(0)).text(), Instant(s.integer(1)).text()));
    }

    void readings_without_entry() {
        auto s = store_.database().statement(
            "SELECT block FROM reading_data d WHERE NOT EXISTS (SELECT 1 FROM batch b WHERE b.entry = d.entry AND "
            "d.block >= b.first_block AND d.block < b.first_block + b.blocks)");
        while (s.step()) find(words::block_of_no_entry(s.integer(0)));
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
                if (const auto against = walk.apply(m)) find(words::colon(words::entry(m.entry), *against));
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
            // rows that the other side has not shown yet: one too many puts all after it out of step, and is one
            // finding
            std::map<std::string, std::int64_t, std::less<>> ahead;
            const auto note = [&](std::string_view row, std::int64_t side) {
                auto it = ahead.find(row);
                if (it == ahead.end()) it = ahead.emplace(row, 0).first;
                if ((it->second += side) == 0) ahead.erase(it);
            };
            for (; a || b; a = a && mine.step(), b = b && made.step()) {
                if (a && b && mine.text(0) == made.text(0)) continue;
                if (a) note(mine.text(0), 1);
                if (b) note(made.text(0), -1);
            }
            for (const auto& [row, times] : ahead)
                find((times > 0 ? words::row_not_of_entries : words::row_not_there)(table.name, row));
        }
    }

    const Store& store_;
    const std::optional<NotedLink>& noted_;
    Store again_;  // the derived rows, made anew from the entries
    std::unordered_set<EntryNumber> voided_;
    std::int64_t blocks_seen_ = 0;
    Verification out_;
};

}  // namespace

Verification verify(const Store& store, const std::optional<NotedLink>& noted) { return Verifier(store, noted).run(); }

}  // namespace coldtally::ledger

namespace coldtally {

Verification not_readable(const Error& damage) {
    Verification out;
    const auto* refusal = dynamic_cast<const Refusal*>(&damage);
    out.findings = {refusal ? refusal->said() : words::as_said(damage.what())};
    out.findings_in_all = 1;
    return out;
}

}  // namespace coldtally
