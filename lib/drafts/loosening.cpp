#include "drafts/loosening.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <tuple>

#include "conditions/disagreements.hpp"
#include "conditions/fit.hpp"
#include "incidents/incident_report.hpp"
#include "stock/cleared.hpp"
#include "stock/last_use.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

using Words = std::vector<std::string>;
using Row = ListsAnswer::Row;

std::string doses_of(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

std::string count_of(std::int64_t n, const char* one) { return std::to_string(n) + " " + one + (n == 1 ? "" : "s"); }

std::string joined(const Words& parts, const char* between) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : between) + part;
    return out;
}

/// Of gives, which may be hundreds: a warning that long is not read. Their number is said before.
std::string first_of(const Words& gives) {
    constexpr std::size_t most = 20;
    if (gives.size() <= most) return joined(gives, ", ");
    return joined(Words(gives.begin(), gives.begin() + most), ", ") + " and " + std::to_string(gives.size() - most) +
           " more";
}

std::string lot_words(const HoldingKey& k) { return text::quoted(k.product) + " lot " + text::quoted(k.lot); }

std::string holding_words(const HoldingKey& k) {
    return lot_words(k) + " in " + text::quoted(k.place) + (k.mark.empty() ? "" : ", mark " + text::quoted(k.mark));
}

/// What is in `before` and not in `after`; and doubts that end.
Words lost_reasons(const Row& before, const Row& after) {
    Words out;
    const auto take = [&](const auto& was, const auto& is, const std::string& what) {
        for (const auto& one : was)
            if (std::find(is.begin(), is.end(), one) == is.end()) out.push_back(what + one);
    };
    take(before.reasons, after.reasons, "");
    take(before.in_doubt, after.in_doubt, "in the time in doubt of incident ");
    return out;
}

bool only_unknown(const Words& reasons) {
    return !reasons.empty() &&
           std::all_of(reasons.begin(), reasons.end(), [](const auto& r) { return r == "unmonitored"; });
}

/// Ascends from what is found of a dose that may count to what is found of one that does not.
int weight(const std::string& finding) {
    constexpr std::string_view all[] = {"clear",            "cleared",    "condemned later",
                                        "pending guidance", "not viable", "expired"};
    return static_cast<int>(std::find(std::begin(all), std::end(all), finding) - std::begin(all));
}

struct Side3 {
    const char* words;
    SideExposure Exposure::*side;
};
constexpr Side3 sides[] = {{"too warm", &Exposure::warm},
                           {"too cold", &Exposure::cold},
                           {"at or below the freeze limit", &Exposure::frozen}};

/// A time of exposure that has become less, or may have been less at most; empty where none has. `seen`: any of it had
/// been read, beyond what a tolerance lets be.
std::string less(const Exposure& before, const Exposure& after, bool& seen) {
    Words out;
    const auto time = [](const Rational& s) { return s.sign() == 0 ? std::string("0 s") : duration_words(s, true); };
    for (const auto& [words, side] : sides) {
        const SideExposure &was = before.*side, &is = after.*side;
        if (is.estimate >= was.estimate && is.at_most >= was.at_most) continue;
        seen = seen || was.estimate.sign() > 0 || before.points > 0;
        out.push_back(std::string(words) + " " + time(was.estimate) + ", at most " + time(was.at_most) + " -> " +
                      time(is.estimate) + ", at most " + time(is.at_most));
    }
    return joined(out, ", ");
}

/// The doses of a product, lot and fund, wherever they are.
struct Flow {
    HoldingKey lot;
    std::vector<const Row*> before, after;
};

template <class Has>
std::int64_t doses_with(const std::vector<const Row*>& rows, Has has) {
    std::int64_t out = 0;
    for (const Row* row : rows)
        if (has(*row)) out += row->doses.count();
    return out;
}

class Comparer {
public:
    Comparer(World& w, const Touched& touched, const Looked& before, const Looked& after)
        : w_(w), touched_(touched), before_(before), after_(after) {}

    Loosening make() {
        out_.changes = changes(before_.snapshot, after_.snapshot);
        for (const Row& row : before_.snapshot.lists.holdings) was_[row.holding] = &row;
        for (const Row& row : after_.snapshot.lists.holdings) is_[row.holding] = &row;
        for (const auto& one : touched_.asks()) ask(one);
        holdings();
        flows();
        gives();
        departures();
        excursions();
        devices();
        programme();
        Words& shows = out_.asks.empty() ? out_.says : out_.asks;
        if (!tighter_.empty())
            shows.push_back(
                "WORSE NOW: these doses come on a list of what must not be used, or have one more reason not to be "
                "used: " +
                joined(tighter_, "; "));
        for (const auto& one : worse_left_) shows.push_back("WORSE NOW, AND NOT HERE ANY MORE: " + one);
        if (!worse_gives_.empty())
            shows.push_back("WORSE NOW: " + count_of(std::ssize(worse_gives_), "give") +
                            (worse_gives_.size() == 1 ? " comes" : " come") +
                            " on the review list, or to a worse finding or one more reason: " +
                            first_of(worse_gives_));
        for (auto& one : learnt()) shows.push_back(std::move(one));
        return std::move(out_);
    }

private:
    void ask(const std::string& what) { out_.asks.push_back("LOOSENS: " + what); }
    void say(const std::string& what) { out_.says.push_back("KNOWN NOW: " + what); }

    /// Of each holding that has doses before and after.
    void holdings() {
        Words off, fewer, known, longer, lesser, slighter;
        std::int64_t doses_off = 0, doses_fewer = 0, doses_known = 0, doses_longer = 0;
        for (const auto& [key, was] : was_) {
            const auto it = is_.find(key);
            if (it == is_.end()) continue;
            const Row& is = *it->second;
            const std::int64_t n = is.doses.count();
            const bool comes_off = is.list > was->list;  // discard, quarantine, keep
            const auto gone = lost_reasons(*was, is);
            const auto gained = lost_reasons(is, *was);
            const bool tighter = is.list < was->list || (!comes_off && !gained.empty());
            if (tighter) worse(holding_words(key), *was, is, gained);
            if (comes_off || !gone.empty()) {
                // what was not known and is known now lets nothing be used where it shows something worse
                const bool said = only_unknown(gone) && (touched_.only_adds() || tighter);
                (said ? doses_known : comes_off ? doses_off : doses_fewer) += n;
                const std::string list(list_name(is.list));
                (said ? known : comes_off ? off : fewer)
                    .push_back(holding_words(key) + " (" + std::to_string(n) + ", " +
                               (comes_off ? std::string(list_name(was->list)) + " -> " + list
                                          : "loses " + joined(gone, ", ") + "; on " + list +
                                                (is.reasons.empty() ? "" : " for " + joined(is.reasons, ", "))) +
                               ")");
                told_.insert(lot_of(key));
            }
            if (is.last_use.until > was->last_use.until) {
                doses_longer += n;
                longer.push_back(holding_words(key) + " (" + std::to_string(n) + ", " +
                                 usable_words(was->last_use.until, w_.known.zone()) + " -> " +
                                 usable_words(is.last_use.until, w_.known.zone()) + ")");
                told_longer_.insert(lot_of(key));
            }
            bool seen = false;
            if (auto what = less(was->history.total, is.history.total, seen); !what.empty()) {
                (seen && !tighter ? lesser : slighter).push_back(holding_words(key) + " (" + what + ")");
                told_.insert(lot_of(key));
            }
        }
        if (!off.empty())
            ask(doses_of(doses_off) + " would come off a list of what must not be used: " + joined(off, "; "));
        if (!fewer.empty())
            ask(doses_of(doses_fewer) + " would lose a reason not to be used: " + joined(fewer, "; "));
        if (!longer.empty())
            ask(doses_of(doses_longer) + " would be usable for longer: " + joined(longer, "; "));
        if (!lesser.empty()) ask("less would have been out of range: " + joined(lesser, "; "));
        if (!known.empty())
            say(doses_of(doses_known) +
                " come off a list of what must not be used, or lose a reason, because time that was not known is known "
                "now: " +
                joined(known, "; "));
        if (!slighter.empty())
            say("the most that they may have been out of range is less than before, within the tolerance or beside "
                "what is worse: " +
                joined(slighter, "; "));
    }

    void worse(const std::string& holding, const Row& was, const Row& is, const Words& gained) {
        const bool comes_on = is.list < was.list;
        tighter_.push_back(holding + " (" + std::to_string(is.doses.count()) + ", " +
                           (comes_on ? std::string(list_name(was.list)) + " -> " : std::string("still on ")) +
                           std::string(list_name(is.list)) +
                           (gained.empty() ? "" : (comes_on ? " for " : "; new: ") + joined(gained, ", ")) + ")");
    }

    bool only_tightens() const { return !(tighter_.empty() && worse_left_.empty()) && out_.asks.empty(); }

    static HoldingKey lot_of(const HoldingKey& k) { return {{}, k.product, k.lot, k.fund, {}}; }

    /// Doses that an entry puts elsewhere, in time before what they would have had part in: of the lot as a whole.
    void flows() {
        std::map<HoldingKey, Flow> all;
        for (const auto& [key, row] : was_) all[lot_of(key)].before.push_back(row);
        for (const auto& [key, row] : is_) all[lot_of(key)].after.push_back(row);
        Words lose, longer, lesser;
        for (const auto& [lot, flow] : all) {
            const auto every = [](const Row&) { return true; };
            // those that leave the site take what they have with them
            const std::int64_t leave =
                std::max<std::int64_t>(0, doses_with(flow.before, every) - doses_with(flow.after, every));
            const auto fewer = [&, &flow = flow](auto has) {
                return doses_with(flow.before, has) - doses_with(flow.after, has) - leave;
            };
            const std::string name = lot_words(lot) + (lot.fund.empty() ? "" : ", fund " + text::quoted(lot.fund));
            if (!told_.contains(lot)) {
                std::set<std::string> reasons, doubts;
                for (const Row* row : flow.before) {
                    reasons.insert(row->reasons.begin(), row->reasons.end());
                    doubts.insert(row->in_doubt.begin(), row->in_doubt.end());
                }
                Words gone;
                std::int64_t most = 0;
                const auto take = [&](const std::string& what, std::int64_t n) {
                    if (n <= 0) return;
                    most = std::max(most, n);
                    gone.push_back(what);
                };
                for (const auto& r : reasons)
                    take(r,
                         fewer([&](const Row& row) { return std::ranges::find(row.reasons, r) != row.reasons.end(); }));
                for (const auto& d : doubts)
                    take("in the time in doubt of incident " + d, fewer([&](const Row& row) {
                             return std::ranges::find(row.in_doubt, d) != row.in_doubt.end();
                         }));
                const std::int64_t kept = fewer([](const Row& row) { return row.list != List::keep; });
                if (!gone.empty())
                    lose.push_back(name + " (" + std::to_string(most) + ", " + joined(gone, ", ") +
                                   (kept > 0 ? "; " + std::to_string(kept) + " -> keep" : "") + ")");
                if (const auto what = less_of(flow, fewer); !what.empty()) lesser.push_back(name + " (" + what + ")");
            }
            if (told_longer_.contains(lot)) continue;
            for (const Row* row : flow.before) {
                const Instant until = row->last_use.until;
                const std::int64_t n = fewer([&](const Row& r) { return r.last_use.until <= until; });
                if (n <= 0) continue;
                longer.push_back(name + " (" + std::to_string(n) + ", " + usable_words(until, w_.known.zone()) +
                                 " so far)");
                break;
            }
        }
        if (!lose.empty())
            ask("doses would not be where they come to be on a list of what must not be used: " + joined(lose, "; "));
        if (!longer.empty()) ask("doses would be usable for longer: " + joined(longer, "; "));
        if (!lesser.empty()) ask("less would have been out of range: " + joined(lesser, "; "));
    }

    template <class Fewer>
    static std::string less_of(const Flow& flow, Fewer fewer) {
        Words out;
        for (const auto& [words, side] : sides)
            for (const Row* row : flow.before) {
                const Rational most = (row->history.total.*side).at_most;
                if (most.sign() == 0) continue;
                const std::int64_t n =
                    fewer([&, side = side](const Row& r) { return (r.history.total.*side).at_most >= most; });
                if (n <= 0) continue;
                out.push_back(std::to_string(n) + ", " + words + " at most " + duration_words(most, true) + " so far");
                break;
            }
        return joined(out, ", ");
    }

    void gives() {
        std::map<EntryNumber, const ReviewAnswer::Row*> is;
        for (const auto& row : after_.snapshot.review.doses) is[row.entry] = &row;
        Words cleared, better, known, lesser;
        for (const auto& was : before_.snapshot.review.doses) {
            const auto it = is.find(was.entry);
            const auto* now = it == is.end() ? nullptr : it->second;
            const std::string entry = "entry " + std::to_string(was.entry);
            Words gone;
            if (now)
                for (const auto& r : was.reasons)
                    if (std::ranges::find(now->reasons, r) == now->reasons.end()) gone.push_back(r);
            const bool is_better = !now || weight(now->finding) < weight(was.finding);
            const bool off = was.finding != "clear" && (!now || now->finding == "clear");
            if (now && !is_better && is_worse(was, *now, gone) && (gone.empty() || only_unknown(gone))) continue;
            if (is_better && touched_.only_adds() && only_unknown(was.reasons) && was.finding != "expired")
                known.push_back(entry);
            else if (is_better && off)
                cleared.push_back(std::to_string(was.entry));
            else if (is_better && now)
                better.push_back(entry + " (" + was.finding + " -> " + now->finding + ")");
            else if (!gone.empty())
                (touched_.only_adds() && only_unknown(gone) ? known : better)
                    .push_back(entry + " (loses " + joined(gone, ", ") + ")");
            bool seen = false;
            if (now && weight(now->finding) <= weight(was.finding))
                if (const auto what = less(was.history.total, now->history.total, seen); !what.empty() && seen)
                    lesser.push_back(entry + " (" + what + ")");
        }
        if (!cleared.empty())
            ask(count_of(std::ssize(cleared), "give") + " would come off the review list: entry " +
                first_of(cleared));
        if (!better.empty())
            ask(count_of(std::ssize(better), "give") + " would have a better finding, or fewer reasons: " +
                first_of(better));
        if (!lesser.empty())
            ask(count_of(std::ssize(lesser), "give") + " would have had less out of range before: " +
                first_of(lesser));
        if (!known.empty())
            say(count_of(std::ssize(known), "give") + (known.size() == 1 ? " has" : " have") +
                " a better finding, or fewer reasons, because time that was not known is known now: " +
                first_of(known));
    }

    /// A finding that is worse than before, or one more reason: noted among them.
    bool is_worse(const ReviewAnswer::Row& was, const ReviewAnswer::Row& now, const Words& gone) {
        Words gained;
        for (const auto& r : now.reasons)
            if (std::ranges::find(was.reasons, r) == was.reasons.end()) gained.push_back(r);
        if (gained.empty() && weight(now.finding) <= weight(was.finding)) return false;
        worse_gives_.push_back("entry " + std::to_string(now.entry) + " (" +
                               (was.finding == now.finding ? was.finding + " as before"
                                                           : was.finding + " -> " + now.finding) +
                               (gained.empty() ? "" : "; new: " + joined(gained, ", ")) +
                               (gone.empty() ? "" : "; no longer " + joined(gone, ", ")) + ")");
        return true;
    }

    /// What guidance cleared already of what is known only now, though no list shows it.
    Words learnt() const {
        const auto news = [](const Words& is, const Words* was) {
            Words out;
            for (const auto& one : is)
                if (one.starts_with(learnt_start) && (!was || std::ranges::find(*was, one) == was->end()))
                    out.push_back(one);
            return out;
        };
        std::map<std::string, Words> all;  // by what was learnt: of one place it is the same for many
        for (const auto& [key, is] : is_) {
            const auto it = was_.find(key);
            for (const auto& one : news(is->beside, it == was_.end() ? nullptr : &it->second->beside))
                all[one].push_back(holding_words(key) + " (" + doses_of(is->doses.count()) + ")");
        }
        std::map<EntryNumber, const ReviewAnswer::Row*> was;
        for (const auto& row : before_.snapshot.review.doses) was[row.entry] = &row;
        for (const auto& row : after_.snapshot.review.doses) {
            const auto it = was.find(row.entry);
            for (const auto& one : news(row.beside, it == was.end() ? nullptr : &it->second->beside))
                all[one].push_back("given, entry " + std::to_string(row.entry));
        }
        Words out;
        for (const auto& [what, whose] : all) out.push_back(what + ": " + first_of(whose));
        return out;
    }

    /// Of doses that left: who has them goes by what was told.
    void departures() {
        Words better, known;
        for (const auto& [was, is] : out_.changes.left) {
            const std::string name = left_words(is.departure, w_.known.zone());
            const auto more = answers::news_of(was, is);
            if (!more.empty())
                worse_left_.push_back(name + " (" + joined(more, "; ") + "): " + left_advice(is.departure));
            Words gone;
            for (const auto& r : was.reasons)
                if (std::ranges::find(is.reasons, r) == is.reasons.end()) gone.push_back(r);
            bool seen = false;
            const auto what = less(was.history.total, is.history.total, seen);
            if (gone.empty() && is.list <= was.list && !(seen && more.empty())) continue;
            const bool said = (touched_.only_adds() || !more.empty()) && only_unknown(gone);
            if (said && !more.empty()) continue;  // what is worse is said of them
            Words parts;
            if (!gone.empty()) parts.push_back("no longer " + joined(gone, ", "));
            if (seen && !what.empty()) parts.push_back(what);
            (said ? known : better).push_back(name + " (" + joined(parts, "; ") + ")");
        }
        if (!better.empty())
            ask("of doses that left, less would be known against their use than who has them may have been told: " +
                joined(better, "; "));
        if (!known.empty())
            say("of doses that left, time that was not known is known now: " + joined(known, "; "));
    }

    void excursions() {
        for (const auto& [place, was] : before_.places) {
            const auto it = after_.places.find(place);
            if (it == after_.places.end()) continue;
            const auto of = compare(place, was, it->second);
            if (of.vanish > 0 || of.shortened > 0)
                only_tightens() ? say(excursion_words(of)) : ask(excursion_words(of));
        }
    }

    void devices() {
        using Disagreement = UnitAnswer::Disagreement;
        const auto key = [](const Disagreement& d) {
            return std::tuple(d.what, d.until, d.check.check, d.check.C, d.other.C, d.other.at);
        };
        for (const auto& [place, all] : after_.disagreements) {
            const auto it = before_.disagreements.find(place);
            for (const auto& d : all) {
                const bool old = it != before_.disagreements.end() &&
                                 std::ranges::any_of(it->second, [&](const auto& o) { return key(o) == key(d); });
                if (old) continue;
                const auto words = "DISAGREE: " + disagreement_words(d, place, w_.known.zone());
                // what shows something worse must not be kept out by a device that has not seen it
                (at_stake(d, w_.place(place).range) && !only_tightens() ? out_.asks : out_.says).push_back(words);
            }
        }
    }

    /// What a programme asks of open incidents. That a condition is surer, or due sooner, is no matter of it.
    void programme() {
        for (const auto& [id, was] : before_.incidents) {
            const auto it = after_.incidents.find(id);
            if (it == after_.incidents.end()) continue;
            const auto& is = it->second;
            Words lost;
            for (const auto& f : was.findings) {
                if (f.state() == RuleFinding::State::not_met) continue;
                const auto now = std::ranges::find_if(
                    is.findings, [&](const auto& o) { return o.rule == f.rule && o.place == f.place; });
                const std::string name =
                    "condition " + text::quoted(f.rule) + " in " + text::quoted(f.place) + ", " +
                    std::string(rule_state_name(f.state())) + ", ";
                if (now == is.findings.end())
                    lost.push_back(name + "would no longer be asked");
                else if (now->state() > f.state())
                    lost.push_back(name + "would be " + std::string(rule_state_name(now->state())));
            }
            for (const auto& d : was.duties) {
                if (d.done || !d.due) continue;
                const auto now = std::ranges::find_if(
                    is.duties, [&](const auto& o) { return o.step == d.step && o.who == d.who; });
                const std::string name = d.step + (d.who.empty() ? "" : " (" + d.who + ")") +
                                         (d.state == DutyClock::State::overdue ? ", OVERDUE since " : ", due ") +
                                         w_.known.zone().local_text(*d.due) + ", ";
                if (now == is.duties.end() || !now->due)
                    lost.push_back(name + "would no longer be due");
                else if (*now->due > *d.due)
                    lost.push_back(name + "would be due " + w_.known.zone().local_text(*now->due));
            }
            if (!lost.empty())
                ask("of open incident " + text::quoted(id) + " the programme would ask less: " + joined(lost, "; "));
        }
    }

    World& w_;
    const Touched& touched_;
    const Looked &before_, &after_;
    std::map<HoldingKey, const Row*> was_, is_;
    std::set<HoldingKey> told_, told_longer_;  // lots of which it was said
    Words tighter_, worse_gives_, worse_left_;  // holdings, gives and doses that left: worse off by it
    Loosening out_;
};

}  // namespace

std::string excursion_words(const Changes::OfPlace& p) {
    const auto verb = [](std::int64_t n, const char* one, const char* more) {
        return std::to_string(n) + " " + (n == 1 ? one : more);
    };
    std::string out = "of " + count_of(p.excursions, "excursion") + " recorded in " + text::quoted(p.place) + " ";
    if (p.vanish == 0 && p.shortened == 0)
        out += "none vanishes or is shortened";
    else
        out += verb(p.vanish, "vanishes", "vanish") + " and " + verb(p.shortened, "is", "are") + " shortened";
    for (const auto& i : p.open_incidents) {
        out += "; open incident " + text::quoted(i.incident) + ", noticed there, ";
        if (i.before == 0)
            out += "has no excursion there";
        else if (i.after == 0)
            out += "would find nothing out of range there: " + count_of(i.before, "excursion") + " -> none";
        else
            out += "would have " + std::to_string(i.before) + " -> " + count_of(i.after, "excursion") + " there";
    }
    return out;
}

Looked look(World& w, const Touched& touched, const std::vector<Entry>& entries) {
    Looked out{snapshot(w, entries), {}, {}, {}};
    if (touched.programme())
        for (const auto& span : open_incidents(w)) {
            World fresh(w.store, w.head, w.known);
            auto whole = incident(fresh, span.incident, std::nullopt);
            out.incidents[span.incident] = {std::move(whole.findings), std::move(whole.duties)};
        }
    for (const auto& [place, time] : touched.places()) {
        if (!w.known.place(place)) continue;
        out.places[place] = excursions_of(w, place);
        std::int64_t until = time.second;  // a display stands for the time before it
        for (const auto& row : w.store.checks(place, time.second))
            if (w.known.is_known(row.entry)) {
                until = row.at;
                break;
            }
        World fresh(w.store, w.head, w.known);
        out.disagreements[place] = disagreements(fresh, place, Window{false, time.first, std::min(until, w.at), true});
    }
    return out;
}

Loosening loosening(World& w, const Touched& touched, const Looked& before, const Looked& after) {
    return Comparer(w, touched, before, after).make();
}

}  // namespace coldtally::answers
