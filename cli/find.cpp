// Find: the commands for words of everyday speech.
#include <algorithm>
#include <set>

#include "coldtally/nearest.hpp"
#include "commands.hpp"

namespace coldtally::cli {

namespace {

constexpr std::size_t most_found = 6, help_columns = 80;

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

/// Runs of letters and digits, in small letters; an apostrophe is left out, what is not ASCII counts as a letter.
std::vector<std::string> split(const std::string& text) {
    std::vector<std::string> out(1);
    for (const char c : lower(text)) {
        if (c == '\'') continue;
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (static_cast<unsigned char>(c) & 0x80);
        if (letter)
            out.back() += c;
        else if (!out.back().empty())
            out.emplace_back();
    }
    if (out.back().empty()) out.pop_back();
    return out;
}

/// So that "vials", "opened" and "throwing" are the words of the table: of plural and verb endings the root.
std::string root(std::string word) {
    constexpr std::size_t shortest = 3;
    const auto drop = [&](std::string_view ending, std::string_view with = "") {
        if (!word.ends_with(ending) || word.size() < ending.size() + shortest) return false;
        word.replace(word.size() - ending.size(), ending.size(), with);
        return true;
    };
    if (!drop("ies", "y") && !drop("sses", "ss") && !drop("shes", "sh") && !drop("ches", "ch") && !drop("xes", "x") &&
        !word.ends_with("ss"))
        drop("s");
    if ((drop("ing") || drop("ed")) && word.size() > shortest && word.back() == word[word.size() - 2] &&
        std::string_view("lsz").find(word.back()) == std::string_view::npos)
        word.pop_back();  // dropped, dropping
    drop("e");
    return word;
}

using Roots = std::set<std::string>;

/// Without the words that say nothing of what is looked for.
Roots roots(const std::string& text) {
    static const std::set<std::string> idle = {
        "a",  "an",   "the",   "of",   "to",   "in",     "on",  "at",  "for",  "from",     "with",
        "i",  "my",   "we",    "me",   "our",  "is",     "are", "was", "were", "be",       "been",
        "do", "does", "did",   "has",  "have", "had",    "can", "it",  "this", "that",     "and",
        "or", "some", "there", "need", "want", "please", "its", "how", "who",  "coldtally"};
    Roots out;
    for (const auto& word : split(text))
        if (!idle.contains(word)) out.insert(root(word));
    return out;
}

std::vector<std::string> phrases(const Command& command) {
    std::vector<std::string> out = {command.name};
    const std::string words = command.words;
    for (std::size_t from = 0; from < words.size();) {
        const std::size_t end = std::min(words.find(", ", from), words.size());
        out.push_back(words.substr(from, end - from));
        from = end + 2;
    }
    return out;
}

/// How well a command fits: a phrase of it is what was said; is in what was said; or what was said is in it.
std::size_t fit(const Command& command, const Roots& said) {
    constexpr std::size_t equal = 1000, within = 100, around = 1;
    std::size_t best = 0;
    for (const auto& phrase : phrases(command)) {
        const Roots of = roots(phrase);
        const bool in_said = std::includes(said.begin(), said.end(), of.begin(), of.end());
        const bool around_said = std::includes(of.begin(), of.end(), said.begin(), said.end());
        if (of.empty()) continue;
        best = std::max(best, in_said && around_said ? equal : in_said ? within * of.size() : around_said ? around : 0);
    }
    return best;
}

/// Single words of the table, as they stand there.
std::vector<std::string> known_words() {
    std::vector<std::string> out;
    for (const Command& command : commands())
        for (const auto& phrase : phrases(command)) {
            const auto words = split(phrase);
            out.insert(out.end(), words.begin(), words.end());
        }
    return out;
}

std::string names(const std::vector<const Command*>& found) {
    std::string out;
    for (const Command* command : found) out += (out.empty() ? "" : ", ") + std::string(command->name);
    return out;
}

}  // namespace

std::vector<const Command*> commands_for(const std::string& words) {
    const Roots said = roots(words);
    std::vector<std::pair<std::size_t, const Command*>> fitting;
    if (!said.empty())
        for (const Command& command : commands())
            if (const std::size_t how = fit(command, said); how > 0) fitting.emplace_back(how, &command);
    std::stable_sort(fitting.begin(), fitting.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<const Command*> out;
    for (const auto& [how, command] : fitting)
        if (how == fitting.front().first && out.size() < most_found) out.push_back(command);
    return out;
}

std::string shown(const std::vector<const Command*>& found) {
    std::string out;
    for (const Command* command : found) {
        CLI::App program;
        Run none;
        describe(*command, program, none);
        const CLI::App* described = program.get_subcommand(command->name);
        out += folded(command->name + (": " + described->get_description()), help_columns) + "\n    " +
               example_of(*described) + "\n";
    }
    return out + "coldtally COMMAND --help says more of each.\n";
}

std::string meant_command(const std::string& word) {
    if (const auto found = commands_for(word); !found.empty()) {
        std::vector<std::string> meant;
        for (const Command* command : found) meant.push_back(command->name);
        return did_you_mean(meant);
    }
    std::vector<std::string> all;
    for (const Command& command : commands()) all.push_back(command.name);
    if (const auto slips = nearest(lower(word), all); !slips.empty()) return did_you_mean(slips);
    return meant_words(word);
}

std::string meant_words(const std::string& words) {
    const auto known = known_words();
    std::vector<std::string> meant;
    for (const auto& word : split(words))
        for (const auto& near : nearest(word, known))
            if (const auto found = commands_for(near); !found.empty())
                meant.push_back("\"" + near + "\" (" + names(found) + ")");
    return did_you_mean(meant);
}

}  // namespace coldtally::cli
