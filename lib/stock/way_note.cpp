#include "stock/way_note.hpp"

#include <string_view>

#include "words/general.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

constexpr std::string_view start = "the way: ";
constexpr std::string_view no_way = "none, received at the instant they left";
constexpr std::string_view left_later = "not known: by the handover they left later than they were received";
constexpr std::string_view from = " from ";
constexpr std::string_view end = ", of which nothing is known";

constexpr std::string_view handover_of = "handover of ";
constexpr std::string_view of_transfer = ", transfer ";

}  // namespace

std::string way_note(Instant left, Instant received, const Zone& zone) {
    std::string out(start);
    if (left == received) return out += no_way;
    if (left > received) return out += left_later;
    return out.append(duration_words(Rational((received - left).seconds()), true))
        .append(from)
        .append(zone.local_text(left))
        .append(end);
}

std::optional<Remark> way_of(const std::optional<std::string>& note) {
    const std::string_view all = note ? std::string_view(*note) : std::string_view();
    const auto at = all.rfind(start);  // people may have written before it
    if (at == all.npos) return words::way_not_told();
    const std::string_view way = all.substr(at + start.size());
    if (way == no_way) return std::nullopt;
    if (way == left_later) return words::way_left_later();
    const auto split = way.find(from);
    if (split != way.npos && way.ends_with(end) && split + from.size() <= way.size() - end.size())
        return words::way_took(way.substr(0, split),
                               way.substr(split + from.size(), way.size() - end.size() - split - from.size()));
    return words::as_said(way);
}

std::string handover_note(const std::string& site, EntryNumber transfer) {
    return std::string(handover_of).append(site).append(of_transfer).append(std::to_string(transfer));
}

std::string handover_of_note(const std::optional<std::string>& note) {
    if (!note) return {};
    // people may have written before it, and the way stands after it
    for (auto at = note->rfind(handover_of); at != note->npos;
         at = at == 0 ? note->npos : note->rfind(handover_of, at - 1)) {
        if (at > 0 && !note->substr(0, at).ends_with("; ")) continue;
        const auto number = note->find(of_transfer, at);
        if (number == note->npos) continue;
        const auto digits = number + of_transfer.size();
        const auto after = note->find_first_not_of("0123456789", digits);
        if (after != digits && after != note->npos && (*note)[after] == ';') return note->substr(at, after - at);
    }
    return {};
}

bool names_handover(const std::optional<std::string>& note, const std::string& handover) {
    return note && (*note + ";").find(handover + ";") != std::string::npos;
}

std::string no_hold_note(const std::string& why) { return "not put on hold: " + why; }

}  // namespace coldtally::answers
