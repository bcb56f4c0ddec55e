#include "drafts/post_warnings.hpp"

#include <algorithm>

#include "drafts/looser.hpp"
#include "drafts/redefine.hpp"
#include "stock/reasons.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

using ledger::Movement;
using ledger::MovementOp;

/// Doses that leave though they are on hold, condemned or no longer to be used.
class Leaving final : public timeline::Observer {
public:
    Leaving(const std::map<EntryNumber, std::string>& where, Instant expired_from, const Zone& zone,
            std::vector<std::string>& said)
        : where_(where), expired_from_(expired_from), zone_(zone), said_(said) {}

    void leaves(const Movement& m, const timeline::Holding& source, const History*) override {
        const auto it = where_.find(m.entry);
        if (it == where_.end()) return;
        const History& h = source.history;
        std::string why;
        const auto add = [&](const std::string& one) { why += (why.empty() ? "" : ", ") + one; };
        const Instant at(m.at);
        if (is_expired(h, expired_from_, at))
            add("past " +
                std::string(at >= expired_from_ ? "their expiry" : "their use-by, " + zone_.local_text(*h.use_by)));
        if (!h.condemned_by.empty()) add("condemned" + numbers(h.condemned_by));
        const bool held = !h.held_by.empty();
        if (held) add("on hold" + numbers(h.held_by));
        if (why.empty()) return;
        const std::string what = "lot " + text::quoted(source.key.lot) + " in " + text::quoted(source.key.place) +
                                 (source.key.mark.empty() ? "" : ", mark " + text::quoted(source.key.mark)) +
                                 " was " + why + " then";
        if (m.op == MovementOp::give || m.op == MovementOp::transfer)
            said_.push_back(it->second + ": DO NOT USE: " + what);
        else if (held)
            said_.push_back(it->second + ": " + what +
                            ": an answer is awaited, and may be that these doses can be used: throw nothing away and "
                            "send nothing back before it has come");
    }

private:
    static std::string numbers(const std::set<EntryNumber>& all) {
        std::string out;
        for (const auto n : all) out += (out.empty() ? " (entry " : ", ") + std::to_string(n);
        return out + ")";
    }
    const std::map<EntryNumber, std::string>& where_;
    const Instant expired_from_;
    const Zone& zone_;
    std::vector<std::string>& said_;
};

}  // namespace

void PostWarnings::add(const Entry& entry, const std::string& where) {
    std::vector<std::string> said;
    if (const auto before = held(known_, store_, entry.fact)) {
        for (const auto& one : looser(*before, entry.fact)) said.push_back("LOOSER: " + one);
        if (const auto* rules = known_.rules())
            for (const auto& one : looser_by_type(rules->fact, *before, entry.fact)) said.push_back("LOOSER: " + one);
    }
    entries_.add(entry, said);
    for (const auto& text : said) said_.push_back(where + ": " + text);
    briefs_.push_back(brief(entry));
    const auto names = ledger::movement_names(entry.fact);
    if (!names || (names->op != MovementOp::give && names->op != MovementOp::waste &&
                   names->op != MovementOp::give_back && names->op != MovementOp::transfer))
        return;
    leaving_.emplace(entry.number, where);
    lots_.emplace(names->product, names->lot);
}

std::vector<std::string> PostWarnings::at_the_end() {
    for (const auto& [product, number] : lots_) {
        const auto id = store_.lot(product, number);
        const std::string expiry = id ? known_.expiry(store_.lot_definitions(*id)) : std::string();
        if (expiry.empty() || !known_.product(product)) continue;
        timeline::LotTimeline timeline(store_, known_, {*id, product, number});
        Leaving leaving(leaving_, known_.zone().end_of_day(Date::parse_expiry(expiry)), known_.zone(), said_);
        timeline.run(INT64_MAX, false, &leaving);
    }
    return said_;
}

}  // namespace coldtally::answers
