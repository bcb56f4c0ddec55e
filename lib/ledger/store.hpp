// Store: the ledger file and its rows. It knows what is written where, not what is allowed.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "ledger/blocks.hpp"
#include "ledger/chain.hpp"
#include "ledger/database.hpp"
#include "ledger/movement.hpp"

namespace coldtally::ledger {

inline constexpr std::int64_t application_id = 0x434C5459;  // "CLTY"
inline constexpr std::int64_t format_version = 2;

/// One row of temperature_check.
struct CheckRow {
    std::int64_t at = 0;
    EntryNumber entry = 0;
    Scale scale = Scale::C;
    std::int32_t temperature = 0;
    std::optional<std::int32_t> lowest, highest;
    std::optional<std::string> probe;
};

struct BlockRow {
    BlockSummary summary;
    std::int64_t block = 0;
    EntryNumber entry = 0;
};

struct HoldingRow {
    std::int64_t holding = 0;
    std::string place, fund, mark;
};

/// An entry from its stored text, readings without their rows. Code::damaged, or the code of what the text breaks;
/// Code::machine where this computer lacks the data of its zone.
Entry read_stored(EntryNumber number, std::string_view body);

class Store {
public:
    /// Opens a ledger that is there. Code::ledger_missing, not_a_ledger, newer_format, older_format, damaged.
    static Store open(const std::string& path, bool writable, int wait_ms);
    /// The same for a ledger of this or an older format, of which only entries and readings may be asked, in read
    /// transactions.
    static Store open_older(const std::string& path, int wait_ms);
    /// Makes an empty ledger in the file `path` of nothing.
    static Store create(const std::string& path, int wait_ms);
    /// An empty ledger of its own that no file holds, whose rows need not belong together.
    static Store in_memory();

    Database& database() const { return *database_; }
    /// Of the file: format_version, or an older one.
    std::int64_t format() const;

    // ---- entries
    struct Tip {
        EntryNumber entry = 0;
        Bytes link;
    };
    Tip tip() const;
    /// Instant of recording of an entry that is there.
    Instant recorded(EntryNumber entry) const;
    /// The highest entry recorded at or before `known_on`; 0 where there is none.
    EntryNumber last_entry_by(Instant known_on) const;
    /// An entry with the rows of readings, or without them; none where there is no such entry.
    std::optional<Entry> entry(EntryNumber entry, bool with_rows = true) const;
    /// The entry of kind T that a row of another table names. Code::damaged where it is not there or is of another
    /// kind.
    template <class T>
    Entry entry_of(EntryNumber number) const {
        auto e = entry(number, false);
        if (!e || !std::holds_alternative<T>(e->fact)) not_of_kind(number, T::kind);
        return std::move(*e);
    }
    /// What it says.
    template <class T>
    T fact(EntryNumber number) const {
        return std::get<T>(entry_of<T>(number).fact);
    }
    /// The entry that a row of another table names; Code::damaged where it is not there.
    Entry named_entry(EntryNumber number) const;
    /// Body and stored link of an entry.
    void for_each_body(EntryNumber from,
                       const std::function<void(EntryNumber, Instant, std::string_view kind, std::string_view body,
                                                std::string_view link)>& take) const;
    void for_each_knowledge(EntryNumber upto, const std::function<void(Entry)>& take) const;
    /// Entries of kind plan, loan, repayment, follow-up or training up to `upto`, the voided ones among them.
    void for_each_duty(std::string_view kind, EntryNumber upto, const std::function<void(Entry)>& take) const;
    /// Writes the entry, its readings and its rows in all tables but balance and tip. Returns the new tip, which
    /// set_tip writes once the balances are there.
    Tip append(const Entry& entry, const Tip& before);
    void set_tip(const Tip& tip);
    /// Writes the row of a batch of so many rows, and the summaries of its blocks, but not the readings.
    void append_batch(EntryNumber entry, const Readings& readings, std::int64_t rows, std::int64_t first_block,
                      const std::vector<BlockSummary>& blocks);
    /// Writes only the rows of the tables that are made from an entry other than readings, but balance.
    void append_rows(const Entry& entry);

    // ---- lots, holdings, movements
    std::optional<std::int64_t> lot(const std::string& product, const std::string& number) const;
    struct LotRow {
        std::int64_t lot = 0;
        std::string product, number;
    };
    std::vector<LotRow> lots() const;
    /// Lots with doses in any holding after all that is posted.
    std::vector<LotRow> lots_in_stock() const;
    /// Lots that ever had a holding in a place.
    std::vector<LotRow> lots_in_place(const std::string& place) const;
    std::vector<HoldingRow> holdings(std::int64_t lot) const;
    /// (entry, expiry as posted), ascending.
    std::vector<std::pair<EntryNumber, std::string>> lot_definitions(std::int64_t lot) const;
    std::vector<Movement> movements(std::int64_t lot) const;
    /// Entries after one of them that moved doses of lots that ever had a holding in a place, up to an instant.
    std::vector<EntryNumber> moved_since(const std::string& place, EntryNumber after, std::int64_t upto) const;
    /// Instant of the first movement of a lot, voided or not; none where there is none.
    std::optional<std::int64_t> first_movement(std::int64_t lot) const;
    std::optional<std::int64_t> holding(std::int64_t lot, const std::string& place, const std::string& fund,
                                        const std::string& mark) const;
    std::int64_t make_holding(std::int64_t lot, const std::string& place, const std::string& fund,
                              const std::string& mark);
    struct Balance {
        std::int64_t doses = 0, last_at = INT64_MIN;
    };
    Balance balance(std::int64_t holding) const;
    void set_balance(std::int64_t holding, const Balance& balance);
    /// Receives with a handover: (entry, lot).
    std::vector<std::pair<EntryNumber, std::int64_t>> handovers() const;

    // ---- temperatures
    /// Checks of a place at or after an instant, by (at, entry).
    std::vector<CheckRow> checks(const std::string& place, std::int64_t from) const;
    void for_each_check(const std::string& place, std::int64_t from,
                        const std::function<void(const CheckRow&)>& take) const;
    /// Instant of the last check before t for which is_known(entry); none where there is none.
    std::optional<std::int64_t> check_before(const std::string& place, std::int64_t t,
                                             const std::function<bool(EntryNumber)>& is_known) const;
    /// The first check for which is_known(entry), of several at its instant the last number; none where there is none.
    std::optional<CheckRow> first_check(const std::string& place,
                                        const std::function<bool(EntryNumber)>& is_known) const;
    /// The scale of the check that is last in time; none where there is none.
    std::optional<Scale> last_check_scale(const std::string& place) const;
    std::optional<std::int64_t> probe(const std::string& name) const;
    /// Blocks that hold an instant at or after `from`, and maybe some before, by first instant.
    std::vector<BlockRow> blocks(std::int64_t probe, std::int64_t from) const;
    /// Appends the readings of a block to `out`.
    void read_block(std::int64_t block, std::vector<Reading>& out) const;
    /// Puts them in place of what `out` holds.
    void read_block_over(std::int64_t block, std::vector<Reading>& out) const;
    /// SHA-256 of an entry's blocks, in their order.
    std::vector<Bytes> block_digests(EntryNumber entry) const;
    /// Readings of a posted batch, ascending.
    std::vector<Reading> batch_rows(EntryNumber entry) const;
    /// How many readings an entry of readings has, and its first and last instant.
    struct BatchSpan {
        std::int64_t readings = 0, first = 0, last = 0;
    };
    BatchSpan batch_span(EntryNumber entry) const;
    /// Entries of readings whose file had this SHA-256.
    std::vector<EntryNumber> batches_of_file(const std::string& sha256) const;

    // ---- incidents
    /// Numbers of the incident entries, ascending.
    std::vector<EntryNumber> incident_entries() const;
    /// Is there an entry of an incident for which is_known(entry)?
    bool incident_named(const std::string& incident, const std::function<bool(EntryNumber)>& is_known) const;

    // ---- who names what, for voids: entry numbers, in any order
    std::vector<EntryNumber> entries_naming_place(const std::string& place) const;
    std::vector<EntryNumber> entries_naming_probe(const std::string& probe) const;
    std::vector<EntryNumber> movements_of(std::int64_t lot) const;

    struct Counters {
        std::int64_t blocks_decoded = 0, readings_decoded = 0, movements_read = 0;
    };
    const Counters& counters() const { return counters_; }

private:
    explicit Store(std::unique_ptr<Database> database) : database_(std::move(database)) {}
    /// Code::damaged where an entry is not what was posted after the one before it, whose link is `before`.
    /// `has_blocks`: readings.
    void check_link(EntryNumber number, std::string_view before, std::string_view body, std::string_view link,
                    bool has_blocks) const;
    [[noreturn]] void not_of_kind(EntryNumber number, std::string_view kind) const;
    /// `decode` is given the block's bytes, and returns how many readings it made of them.
    void with_block(std::int64_t block, const std::function<std::size_t(std::string_view)>& decode) const;
    std::int64_t make_lot(const std::string& product, const std::string& number);
    std::unique_ptr<Database> database_;
    mutable Counters counters_;
};

}  // namespace coldtally::ledger
