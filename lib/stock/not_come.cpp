#include "stock/not_come.hpp"

#include <algorithm>

#include "words/stock.hpp"

namespace coldtally::answers {

void NotCome::receives(const ledger::Movement& m, const timeline::Holding& target, const History& incoming) {
    if (target.doses == 0) of_.erase(target.key);
    const Rational& awaited = incoming.total.seconds[static_cast<std::size_t>(Class::awaiting)];
    if (awaited.sign() > 0) of_[target.key][m.entry] = {awaited, false};
}

void NotCome::moves(const timeline::Holding& source, const timeline::Holding& target) {
    if (target.doses == 0) of_.erase(target.key);
    const auto from = of_.find(source.key);
    if (from == of_.end()) return;
    const auto came = from->second;
    for (const auto& [entry, time] : came) {
        const auto [it, fresh] = of_[target.key].emplace(entry, time);
        if (!fresh) it->second.cleared = it->second.cleared && time.cleared;
    }
}

void NotCome::clears(const timeline::Holding& h) {
    const auto it = of_.find(h.key);
    if (it == of_.end()) return;
    for (auto& [entry, time] : it->second) time.cleared = true;
}

const std::map<EntryNumber, NotCome::Time>* NotCome::of(const HoldingKey& holding) const {
    const auto it = of_.find(holding);
    return it == of_.end() || it->second.empty() ? nullptr : &it->second;
}

bool NotCome::is_open(const HoldingKey& holding) const {
    const auto* all = of(holding);
    return all && std::ranges::any_of(*all, [](const auto& one) { return !one.second.cleared; });
}

Rational NotCome::most(const HoldingKey& holding) const {
    Rational out;
    if (const auto* all = of(holding))
        for (const auto& [entry, time] : *all) out = std::max(out, time.seconds);
    return out;
}

Remark not_come_words(EntryNumber receive, const Rational& seconds) {
    return words::readings_not_come(receive, duration_words(seconds, true));
}

}  // namespace coldtally::answers
