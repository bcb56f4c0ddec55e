#include "drafts/post_warnings.hpp"

#include <algorithm>

#include "drafts/looser.hpp"
#include "drafts/naming.hpp"
#include "drafts/redefine.hpp"
#include "stock/reasons.hpp"
#include "words/drafts_warnings.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using ledger::Movement;
using ledger::MovementOp;

/// Doses that leave though they are on hold, condemned or no longer to be used.
class Leaving final : public timeline::Observer {
public:
    Leaving(const std::map<EntryNumber, std::int64_t>& lines, Instant expired_from, const Zone& zone,
            std::vector<Remark>& said)
        : lines_(lines), expired_from_(expired_from), zone_(zone), said_(said) {}

    void leaves(const Movement& m, const timeline::Holding& source, const History*) override {
        const auto it = lines_.find(m.entry);
        if (it == lines_.end()) return;
        const History& h = source.history;
        std::vector<Field> why;
        const Instant at(m.at);
        if (is_expired(h, expired_from_, at))
            why.push_back(at >= expired_from_ ? words::past_their_expiry()
                                              : words::past_their_use_by(zone_.local_text(*h.use_by)));
        if (!h.condemned_by.empty()) why.push_back(words::condemned_by(words::entries_of(h.condemned_by)));
        const bool held = !h.held_by.empty();
        if (held) why.push_back(words::on_hold_by(words::entries_of(h.held_by)));
        if (why.empty()) return;
        const Remark line = words::line_named(it->second),
                     what = words::was_then(lot_in(source.key), words::listed(why));
        if (m.op == MovementOp::give || m.op == MovementOp::transfer)
            said_.push_back(words::colon(line, words::do_not_use_was_then(what)));
        else if (held)
            said_.push_back(words::colon(line, words::wait_for_the_answer(what)));
    }

private:
    const std::map<EntryNumber, std::int64_t>& lines_;
    const Instant expired_from_;
    const Zone& zone_;
    std::vector<Remark>& said_;
};

}  // namespace

void PostWarnings::add(const Entry& entry, std::int64_t line) {
    std::vector<Remark> said;
    if (const auto both = redefined(known_, store_, entry.fact))
        for (const auto& one : looser_than(known_, *both)) said.push_back(words::looser_than_before(one));
    entries_.add(entry, said);
    for (const auto& one : said) said_.push_back(words::colon(words::line_named(line), one));
    briefs_.push_back(brief(entry));
    const auto names = ledger::movement_names(entry.fact);
    if (!names || (names->op != MovementOp::give && names->op != MovementOp::waste &&
                   names->op != MovementOp::give_back && names->op != MovementOp::transfer))
        return;
    leaving_.emplace(entry.number, line);
    lots_.emplace(names->product, names->lot);
}

std::vector<Remark> PostWarnings::at_the_end() {
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
