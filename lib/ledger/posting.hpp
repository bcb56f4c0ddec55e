// Posting: may this entry follow what the ledger holds? Every rule that looks beyond the entry itself.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "ledger/known.hpp"
#include "ledger/store.hpp"

namespace coldtally::ledger {

/// Refuses an instant of recording that could not be read again: Code::bad_value outside 1970 to 2199.
void check_clock(Instant recorded, const std::string& where);

/// Readings of a probe that are known and not voided, between two instants (both included), by instant and then in the
/// order of their blocks, with the entry each is from. Some blocks are held at a time; those that are there when it is
/// made are read.
class ReadingsBetween {
public:
    ReadingsBetween(const Store& store, const Known& known, const std::string& probe, std::int64_t from,
                    std::int64_t until);
    using Row = std::pair<Reading, EntryNumber>;
    /// The next one, borrowed until the next call; null after the last.
    const Row* next();

private:
    const Store& store_;
    std::int64_t from_, until_;
    std::vector<BlockRow> blocks_;  // by their first instant
    std::size_t block_ = 0;
    std::vector<Row> held_;
    std::size_t at_ = 0;
    std::vector<Reading> rows_;
};

/// All of them, each instant once.
std::vector<Reading> readings_between(const Store& store, const Known& known, const std::string& probe,
                                      std::int64_t from, std::int64_t until);

/// Posts entries one after the other in the caller's transaction. Where one is refused, the caller must take the
/// transaction back and drop this object.
class Posting {
public:
    explicit Posting(Store& store);

    /// The zone in which the local times of the next entry are read; null where there is no site yet.
    const Zone* zone() const { return known_.sites.empty() ? nullptr : &known_.zone(); }
    const Known& known() const { return known_; }
    EntryNumber last_entry() const { return tip_.entry; }
    /// When the last entry was recorded; none in an empty ledger.
    std::optional<Instant> last_recorded() const { return last_recorded_; }

    /// Checks and writes one entry; its number and recorded instant are set. `where` begins every message.
    /// Rows of readings are put in order, equal ones once.
    void post(Entry& entry, const std::string& where);

private:
    struct Rules;
    struct Voiding;
    void check_movement(const Entry& entry, const std::string& where);
    void check_readings(Readings& readings, const Entry& entry, const std::string& where);
    void check_void(const Void& v, const std::string& where);
    void check_handovers(const std::string& product, const Product& definition, const std::string& where,
                         const std::string& field) const;
    /// The movements of a lot that are not voided, with `extra` in its place.
    std::vector<Movement> timeline_of(std::int64_t lot, const Movement* extra, EntryNumber without) const;
    /// Walks the timeline of a lot and keeps its balances for the entry to come.
    void walk(std::int64_t lot, const Movement* extra, EntryNumber without, const std::string& where,
              const std::string& field);
    /// The row of a holding that a posted entry has made, by the number that stood for it before.
    std::int64_t id_of_new(std::int64_t holding, const Entry& entry) const;
    bool lot_defined(const std::string& product, const std::string& lot) const;

    Store& store_;
    Known known_;
    Store::Tip tip_;
    std::optional<Instant> last_recorded_;
    std::unordered_map<std::int64_t, Store::Balance> new_balances_;
};

}  // namespace coldtally::ledger
