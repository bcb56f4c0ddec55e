#include "stock/sender_note.hpp"

#include <algorithm>
#include <string_view>

#include "stock/way_note.hpp"
#include "text/json_text.hpp"
#include "text/utf8.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

using text::Json;

constexpr std::string_view start = "the sender says (";
constexpr std::string_view middle = "): ";
constexpr std::string_view end = "; ";

std::string literal(const std::string& text) { return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace); }

/// Where a string literal that begins there ends; npos: it does not.
std::size_t end_of_literal(std::string_view note, std::size_t from) {
    for (std::size_t i = from + 1; i < note.size(); ++i) {
        if (note[i] == '\\')
            ++i;
        else if (note[i] == '"')
            return i + 1;
    }
    return note.npos;
}

bool is(const std::string& code, const Phrase& phrase) { return code == phrase.code; }

/// As `forbids_use` has it, by the code alone.
bool forbids(const std::string& code) {
    return is(code, words::learnt_after_guidance) || is(code, words::held_after_guidance) ||
           is(code, words::handover_restated) || is(code, words::handover_vial_not_noted) ||
           is(code, words::sender_forbids);
}

}  // namespace

std::string sender_note(const std::vector<SenderLine>& lines, std::size_t characters) {
    constexpr std::size_t least = 100;  // of a line that is cut, so that it says something
    std::string out;
    for (const auto& line : lines) {
        const auto whole = [&](const std::string& text) {
            std::string one(start);
            return one.append(line.code).append(middle).append(literal(text)).append(end);
        };
        const std::size_t used = text::characters(out);
        std::string one = whole(line.text);
        for (std::size_t most = text::characters(line.text); used + text::characters(one) > characters;) {
            const std::size_t over = used + text::characters(one) - characters;
            if (most < over + least) return out;
            most -= over;
            one = whole(text::beginning(line.text, most));
        }
        out += one;
    }
    return out;
}

std::vector<SenderLine> sender_lines(const std::string& note) {
    std::vector<SenderLine> out;
    for (auto at = note.find(start); at != note.npos; at = note.find(start, at)) {
        const auto code = at + start.size(), code_end = note.find(middle, code);
        at = code;
        if (code_end == note.npos) break;
        const auto text = code_end + middle.size();
        const auto text_end = text < note.size() && note[text] == '"' ? end_of_literal(note, text) : note.npos;
        if (text_end == note.npos) continue;
        const Json said = Json::parse(note.substr(text, text_end - text), nullptr, false);
        if (!said.is_string()) continue;
        out.push_back({note.substr(code, code_end - code), said.get<std::string>()});
        at = text_end;  // what stands within a text is its own
    }
    return out;
}

bool came_from_elsewhere(const History& history) {
    return std::ranges::any_of(history.places, [](const auto& p) { return p.find('/') != std::string::npos; });
}

std::vector<SenderSaid> sender_said(const World& w, std::int64_t lot) {
    std::vector<SenderSaid> out;
    for (const auto& m : w.store.movements(lot)) {
        if (m.op != ledger::MovementOp::receive || !m.flag || m.at > w.at || !w.known.is_known(m.entry)) continue;
        const auto entry = w.store.entry(m.entry, false);
        auto lines = sender_lines(entry->note.value_or(""));
        if (lines.empty()) continue;
        const auto& receive = std::get<Receive>(entry->fact);
        out.push_back({m.entry, m.at, receive.place, handover_of_note(entry->note), receive.handover->history.places,
                       std::move(lines)});
    }
    return out;
}

std::vector<Remark> sender_words(const std::vector<SenderSaid>& all, const HoldingKey& holding, const History& history,
                                 const Clearings& clearings, EntryNumber covered) {
    std::vector<Remark> out;
    for (const auto& one : all) {
        const auto& been = history.places;
        if (one.entry < covered || !been.contains(one.place) ||
            !std::includes(been.begin(), been.end(), one.places.begin(), one.places.end()) ||
            clearings.answer(holding, one.at, one.entry))
            continue;
        for (const auto& line : one.lines)
            out.push_back((forbids(line.code) ? words::sender_forbids : words::sender_said)(one.handover, one.entry,
                                                                                            line.text));
    }
    return out;
}

}  // namespace coldtally::answers
