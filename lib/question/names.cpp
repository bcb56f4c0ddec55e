#include <algorithm>

#include "coldtally/conditions.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/incidents.hpp"
#include "words/incidents.hpp"
#include "words/stock.hpp"

namespace coldtally {

std::string_view list_name(List list) noexcept {
    constexpr std::string_view names[] = {"discard", "quarantine-pending-guidance", "keep"};
    return names[static_cast<int>(list)];
}

std::string_view use_limit_name(UseLimitKind kind) noexcept {
    constexpr std::string_view names[] = {"expiry", "beyond-use", "guidance", "handover"};
    return names[static_cast<int>(kind)];
}

std::string_view reason_name(Reason reason) noexcept {
    constexpr std::string_view names[] = {"expired",        "condemned", "warm",        "cold", "frozen",
                                          "over-allowance", "point",     "unmonitored", "held"};
    return names[static_cast<int>(reason)];
}

std::string_view finding_name(Finding finding) noexcept {
    constexpr std::string_view names[] = {"expired", "not viable", "pending guidance", "condemned later",
                                          "cleared", "clear",      "void",             "given later"};
    return names[static_cast<int>(finding)];
}

bool forbids_use(const Remark& beside) noexcept {
    return beside.is(words::learnt_after_guidance) || beside.is(words::held_after_guidance) ||
           beside.is(words::handover_restated) || beside.is(words::sender_forbids) || beside.is(words::release_lapsed);
}

bool do_not_use(List list, const std::vector<std::string>& in_doubt, const std::vector<Remark>& beside) {
    return list != List::keep || !in_doubt.empty() || std::ranges::any_of(beside, forbids_use);
}

std::string_view side_name(Side side) noexcept { return side == Side::cold ? "cold" : "warm"; }

std::string_view excursion_kind_name(ExcursionKind kind) noexcept {
    constexpr std::string_view names[] = {"bounded", "line", "point"};
    return names[static_cast<int>(kind)];
}

std::string_view duty_state_name(DutyClock::State state) noexcept {
    constexpr std::string_view names[] = {"overdue", "due", "no limit", "done late", "done"};
    return names[static_cast<int>(state)];
}

}  // namespace coldtally
