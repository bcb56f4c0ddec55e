// Known: what the entries up to one of them say, the voided ones removed: definitions, and the facts every question
// needs.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <unordered_set>
#include <vector>

#include "ledger/store.hpp"

namespace coldtally::ledger {

template <class T>
struct Numbered {
    EntryNumber entry = 0;
    T fact;
};

template <class T>
struct Dated {
    std::int64_t at = 0;
    EntryNumber entry = 0;
    T fact;
};

class Known {
public:
    /// Entries up to `upto`, of which there is at least one.
    static Known load(const Store& store, EntryNumber upto);

    EntryNumber upto = 0;
    std::unordered_set<EntryNumber> voided;
    /// The last entry that takes back another than a hold, which touches nothing of what temperatures are known. 0:
    /// none.
    EntryNumber last_void_but_of_holds = 0;
    std::vector<Numbered<Site>> sites;                          ///< not voided; the last holds
    std::map<std::string, std::vector<Numbered<Product>>> products;
    std::map<std::string, std::vector<Numbered<Place>>> places;
    std::map<std::string, std::vector<Numbered<Probe>>> probes;
    std::map<std::string, std::vector<Dated<Certificate>>> certificates;  ///< by (at, number)
    std::vector<Dated<Assign>> assigns;                         ///< by (at, number)
    std::vector<Dated<Hold>> holds;                             ///< by (at, number)
    std::vector<Dated<Guidance>> guidance;                      ///< by number; at: its `at`, not its `through`

    std::vector<Numbered<ProgrammeRules>> programme_rules;       ///< the last holds
    std::map<std::string, std::vector<Numbered<Maker>>> makers;  ///< by product; the last holds
    std::vector<Dated<Report>> reports;                         ///< by (at, number)
    std::vector<Dated<Trip>> trips;                             ///< by (at, number)

    const Site& site() const { return sites.back().fact; }
    /// The zone of the site entry that holds.
    const Zone& zone() const { return *zone_; }
    Duration stale_after() const { return site().stale_after.value_or(Duration(86400)); }
    Duration unmonitored_limit() const { return site().unmonitored_limit.value_or(Duration(0)); }
    /// The definition that holds; null where there is none.
    const Product* product(const std::string& id) const;
    const Place* place(const std::string& id) const;
    const Probe* probe(const std::string& id) const;
    /// The programme's rules that hold, with the number of their entry; null where none are known.
    const Numbered<ProgrammeRules>* rules() const {
        return programme_rules.empty() ? nullptr : &programme_rules.back();
    }
    /// ' (there are "annex", "main")', for a message about another; empty where there is none.
    std::string place_names() const;
    const Maker* maker(const std::string& product) const;
    bool is_known(EntryNumber entry) const { return entry <= upto && !voided.contains(entry); }
    /// The expiry that holds among those of a lot; empty where none is known.
    std::string expiry(const std::vector<std::pair<EntryNumber, std::string>>& definitions) const;

    /// Takes in the next entry; `at` of timeline facts is set.
    void add(const Entry& entry);

private:
    void remove(EntryNumber entry);
    void set_zone();
    std::optional<Zone> zone_;
};

/// A product's allowances in seconds, in their order.
std::vector<Duration> allowance_seconds(const Product& product);

}  // namespace coldtally::ledger
