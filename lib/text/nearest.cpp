#include "coldtally/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace coldtally {

namespace {

constexpr std::size_t most_named = 3, shortest_beginning = 3, longest_word = 40;

/// Optimal string alignment: how many letters must be left out, put in, changed, or exchanged with their neighbour.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last, last(b.size() + 1), row(b.size() + 1);
    std::iota(last.begin(), last.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] != b[j - 1])});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        before_last = last;
        last = row;
    }
    return last.back();
}

}  // namespace

std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates) {
    std::vector<std::string> out;
    if (word.size() > longest_word) return out;
    std::size_t best = std::max<std::size_t>(1, word.size() / 3);
    for (const auto& candidate : candidates) {
        const bool begins = word.size() >= shortest_beginning && candidate.starts_with(word);
        const std::size_t apart = begins ? 1 : distance(word, candidate);
        if (apart > best || std::find(out.begin(), out.end(), candidate) != out.end()) continue;
        if (apart < best) out.clear();
        best = apart;
        if (out.size() < most_named) out.push_back(candidate);
    }
    return out;
}

std::string did_you_mean(const std::vector<std::string>& candidates) {
    std::string out;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        out += (i == 0 ? "; did you mean " : i + 1 < candidates.size() ? ", " : " or ") + candidates[i];
    return out.empty() ? out : out + "?";
}

}  // namespace coldtally
