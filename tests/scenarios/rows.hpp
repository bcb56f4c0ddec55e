// Rows of a table: their words, times, limits and holdings.
#pragma once

#include <algorithm>
#include <deque>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace scenarios {

using coldtally::EntryNumber;
using coldtally::Instant;
using Json = nlohmann::json;
/// The entries that a table has named.
using Names = std::map<std::string, EntryNumber>;

[[noreturn]] inline void unreadable(const std::string& what) {
    throw std::invalid_argument("cannot read the row: " + what);
}

inline std::string trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) return "";
    return std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

/// "08:00", "08:00:30", "03-04T08:00", "2027-03-04T08:00:30" -> RFC 3339
inline std::string time_text(const std::string& word) {
    std::string day = "2026-03-02", clock = word;
    if (const auto t = word.find('T'); t != std::string::npos) {
        day = (t == 5 ? "2026-" : "") + word.substr(0, t);
        clock = word.substr(t + 1);
    }
    if (clock.size() == 5) clock += ":00";
    if (day.size() != 10 || clock.size() != 8) unreadable("time " + word);
    return day + "T" + clock + "Z";
}

inline Instant instant(const std::string& word) {
    return coldtally::parse_instant(time_text(word), coldtally::Zone("UTC"));
}

inline bool is_date(const std::string& word) { return word.size() == 10 && word.find('T') == std::string::npos; }

/// "8" and "8C" -> {"C":"8"}, "46F" -> {"F":"46"}, "8C/46F" -> both
inline Json limit(const std::string& word) {
    Json out = Json::object();
    std::istringstream in(word);
    for (std::string part; std::getline(in, part, '/');) {
        const bool letter = part.back() == 'C' || part.back() == 'F';
        out[letter ? part.substr(part.size() - 1) : "C"] = letter ? part.substr(0, part.size() - 1) : part;
    }
    return out;
}

class Words {
public:
    explicit Words(const std::string& text) {
        std::istringstream in(text);
        for (std::string w; in >> w;) words_.push_back(w);
    }
    bool empty() const { return words_.empty(); }
    const std::string& first() const { return words_.front(); }
    std::string next() {
        if (words_.empty()) unreadable("a word is missing");
        std::string out = words_.front();
        words_.pop_front();
        return out;
    }
    std::int64_t number() { return std::stoll(next()); }
    bool take(const std::string& word) {
        if (words_.empty() || words_.front() != word) return false;
        words_.pop_front();
        return true;
    }
    /// A word and what follows it, wherever they stand: "fund state".
    std::string option(const std::string& name) {
        for (std::size_t i = 0; i + 1 < words_.size(); ++i)
            if (words_[i] == name) {
                std::string out = words_[i + 1];
                words_.erase(words_.begin() + static_cast<std::ptrdiff_t>(i),
                             words_.begin() + static_cast<std::ptrdiff_t>(i + 2));
                return out;
            }
        return "";
    }
    /// A word, wherever it stands.
    bool has(const std::string& word) {
        const auto found = std::find(words_.begin(), words_.end(), word);
        if (found == words_.end()) return false;
        words_.erase(found);
        return true;
    }
    std::string rest() {
        std::string out;
        for (const auto& w : words_) out += (out.empty() ? "" : " ") + w;
        words_.clear();
        return out;
    }

private:
    std::deque<std::string> words_;
};

/// An entry by its name, or by its number.
inline EntryNumber numbered(const Names& names, const std::string& word) {
    return names.contains(word) ? names.at(word) : std::stoll(word);
}

/// What one word says of several: "health-department" -> "health department".
inline std::string spoken(std::string word) {
    std::replace(word.begin(), word.end(), '-', ' ');
    return word;
}

/// "main:bag" into a place and a mark; a mark only where there is a colon.
inline void put_place(Json& entry, const std::string& word) {
    const auto colon = word.find(':');
    if (colon != 0) entry["place"] = word.substr(0, colon);
    if (colon != std::string::npos) entry["mark"] = word.substr(colon + 1);
}

inline void put_range(Json& entry, Words& w) {
    Json range = Json::object();
    const std::string low = w.next(), high = w.next();
    if (low != "-") range["low"] = limit(low);
    if (high != "-") range["high"] = limit(high);
    entry["range"] = range;
}

inline void put_holding(Json& entry, Words& w) {
    put_place(entry, w.next());
    entry["product"] = w.next();
    entry["lot"] = w.next();
}

/// place, product, lot and fund of the words that follow
inline coldtally::HoldingKey key_of(Words& w) {
    Json e = Json::object();
    const std::string fund = w.option("fund");
    put_holding(e, w);
    return {e["place"], e["product"], e["lot"], fund, e.value("mark", "")};
}

}  // namespace scenarios
