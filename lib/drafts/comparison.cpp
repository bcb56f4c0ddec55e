#include "drafts/comparison.hpp"

#include "question/said.hpp"
#include "stock/how_far.hpp"
#include "text/json_text.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

Comparison::Comparison(World& world, const Touched& what, const Looked& was_then, const Looked& is_then)
    : w(world), touched(what), before(was_then), after(is_then) {
    out.changes = changes(before.snapshot, after.snapshot);
    for (const Row& row : before.snapshot.lists.holdings) was[row.holding] = &row;
    for (const Row& row : after.snapshot.lists.holdings) is[row.holding] = &row;
}

void Comparison::ask(const Remark& what) { out.asks.push_back(words::loosens(what)); }
void Comparison::say(const Remark& what) { out.says.push_back(words::known_now(what)); }
void Comparison::say_between(const Remark& what) { out.says.push_back(words::between_checks_now(what)); }

Against lost(const Comparison::Row& before, const Comparison::Row& after) {
    return {gone(before.reasons, after.reasons), gone(before.in_doubt, after.in_doubt)};
}

bool only_unknown(const std::vector<Reason>& reasons) {
    return !reasons.empty() && std::ranges::all_of(reasons, [](Reason r) { return r == Reason::unmonitored; });
}
bool only_unknown(const Against& against) { return against.in_doubt.empty() && only_unknown(against.reasons); }

bool more_between_checks(const Exposure& before, const Exposure& after) {
    constexpr auto checked = static_cast<std::size_t>(Class::checked);
    return after.seconds[checked] > before.seconds[checked];
}

Field against_words(const Against& against) {
    std::vector<Field> out;
    for (const Reason r : against.reasons) out.emplace_back(said::reason_words(r));
    for (const auto& incident : against.in_doubt) out.emplace_back(words::time_in_doubt_of(incident));
    return words::listed(out);
}

const std::vector<SideOf>& sides_of_exposure() {
    static const std::vector<SideOf> all = {{words::too_warm, &Exposure::warm},
                                            {words::too_cold, &Exposure::cold},
                                            {words::at_freeze_limit, &Exposure::frozen}};
    return all;
}

std::optional<Remark> less(const Product* product, const Exposure& before, const Exposure& after, bool& seen) {
    std::optional<Remark> out;
    const auto time = [](const Rational& s) { return s.sign() == 0 ? std::string("0 s") : duration_words(s, true); };
    for (const auto& [name, side] : sides_of_exposure()) {
        const SideExposure &was = before.*side, &is = after.*side;
        if (is.estimate >= was.estimate && is.at_most >= was.at_most) continue;
        seen = seen || was.estimate.sign() > 0 || before.points > 0;
        Remark one = words::exposure_less(name, time(was.estimate), time(was.at_most), time(is.estimate),
                                          time(is.at_most));
        out = out ? words::semicolon(*out, std::move(one)) : std::move(one);
    }
    if (product)
        for (auto& one : less_far_out(product->range, before, after)) {
            seen = true;
            out = out ? words::semicolon(*out, std::move(one)) : std::move(one);
        }
    return out;
}

std::optional<Remark> further(const Product* product, const Exposure& before, const Exposure& after) {
    if (!product) return std::nullopt;
    return words::semicolons(further_out(product->range, before, after));
}

HoldingKey lot_of(const HoldingKey& k) { return {{}, k.product, k.lot, k.fund, {}}; }

Field first_of(const std::vector<Field>& gives) {
    constexpr std::size_t most = 20;
    if (gives.size() <= most) return words::listed(gives);
    return words::and_more(words::listed({gives.begin(), gives.begin() + most}), gives.size() - most);
}

Remark which(const std::vector<Remark>& all) { return words::semicolons(all).value_or(words::none); }

}  // namespace coldtally::answers
