// Loosening: which entries may let doses be used that could not be, and what they loosen.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "coldtally/loosening.hpp"
#include "coldtally/upkeep.hpp"
#include "conditions/released.hpp"
#include "drafts/changes.hpp"

namespace coldtally::answers {

/// An entry without the rows of its readings: from the first of them to the last, else its instant (0: it has none).
struct Brief {
    Fact fact;
    std::int64_t from = 0, until = 0;
    std::string handover = {};  ///< that a receive names in its note
};
Brief brief(const Entry& entry);

/// What the entries touch, as known without them.
class Touched {
public:
    Touched(World& world, const std::vector<Brief>& entries);
    /// Can any of them loosen anything?
    bool may_loosen() const { return may_loosen_; }
    /// Are they what a logger measured, or stand after all that is known, so that time is known by them that was not?
    bool only_adds() const { return only_adds_; }
    /// May they show that anything was out of range that was not known to be? `after`: the world that knows them.
    bool may_worsen(World& after) const;
    /// What is asked about whatever the lists show: doses that would not have left, readings taken as certified.
    const std::vector<Remark>& asks() const { return asks_; }
    /// Places whose temperatures they touch, from when to when.
    const std::map<std::string, std::pair<std::int64_t, std::int64_t>>& places() const { return places_; }

    /// Are any of them readings or checks of a time up to which a place was known already?
    bool of_the_past() const { return of_the_past_; }
    /// May they change what a programme asks of an incident?
    bool programme() const { return programme_; }

private:
    void look(World& world, const Brief& entry);
    void handover_anew(World& world, const Receive& receive, const Brief& of);
    void handover_gone(World& world, const Receive& receive, const Brief& of, EntryNumber number);
    void movement(World& world, const ledger::MovementNames& names, std::int64_t at);
    void assignment(const World& world, const Assign& assign, std::int64_t at);
    void certificate(World& world, const Certificate& certificate, std::int64_t at);
    void taken_back(World& world, EntryNumber entry);
    /// The temperatures of a place in [from, until].
    void touch(const World& world, const std::string& place, std::int64_t from, std::int64_t until);
    /// Those of wherever the probe was then.
    void touch_places_of(const World& world, const std::string& probe, std::int64_t from, std::int64_t until);
    void temperatures(World& world, const std::string& place, std::int64_t from, std::int64_t until, bool is_check);
    void late() { may_loosen_ = true, only_adds_ = false, of_the_past_ = true; }
    bool may_loosen_ = false, only_adds_ = true, of_the_past_ = false, programme_ = false;
    std::vector<Remark> asks_;
    std::map<std::string, std::pair<std::int64_t, std::int64_t>> places_;
    std::map<std::pair<std::string, std::string>, std::int64_t> latest_;  // of each lot that was asked for
};

/// One state of a ledger, to be compared with another.
struct Looked {
    Snapshot snapshot;
    std::map<std::string, Snapshot::OfPlace> places;                            ///< those touched
    std::map<std::string, std::vector<UnitAnswer::Disagreement>> disagreements;  ///< of those, in the time touched
    struct Asked {
        std::vector<RuleFinding> findings;
        std::vector<DutyClock> duties;
    };
    /// What was given, or left the site, in the time in doubt of an open incident: by entry, from which place and when.
    struct Doubted {
        std::map<EntryNumber, std::pair<std::string, Instant>> given, left;
        std::map<std::string, Instant> last_good;  ///< the reading in range that it begins with, of each place
    };
    std::map<std::string, Doubted> doubted;  ///< of those in the places touched
    std::map<std::string, Asked> incidents;  ///< that are open, where what a programme asks of them may be touched
    std::vector<Doubt> lapsed;               ///< releases of incidents that do not hold
};
/// `entries`: the known places that they define anew are those of the snapshot.
Looked look(World& world, const Touched& touched, const std::vector<Entry>& entries);

/// `world`: the one that knows them.
Loosening loosening(World& world, const Touched& touched, const Looked& before, const Looked& after);

/// What becomes of the excursions of a place, and of the open incidents there.
Remark excursion_words(const Changes::OfPlace& place);

}  // namespace coldtally::answers
