#include "ledger_word.hpp"

#include <algorithm>
#include <filesystem>
#include <limits>
#include <optional>

#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"

namespace coldtally::cli {

namespace {

constexpr std::string_view usual_ending = ".ledger";

std::vector<std::string> option_names(const CLI::App& command) {
    std::vector<std::string> out;
    for (const CLI::Option* option : command.get_options())
        for (const auto& name : option->get_lnames()) out.push_back("--" + name);
    return out;
}

/// What CLI11 takes for a long option; all else that begins with dashes is a word.
bool is_option(const std::string& argument) {
    return argument.size() > 2 && argument.starts_with("--") && CLI::detail::valid_first_char(argument[2]);
}

/// What a command line holds besides its options.
struct Words {
    std::vector<std::size_t> at;        ///< where they stand
    std::optional<std::string> ledger;  ///< of --ledger
    bool help = false;
};

/// As CLI11 will read them: what follows an option that takes a value is its value, whatever it looks like.
Words words_of(const CLI::App& command, const std::vector<std::string>& arguments, bool private_words) {
    Words out;
    bool options = true;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string& argument = arguments[i];
        if (options && argument == "--") {
            options = false;
            continue;
        }
        if (options && (argument == "-h" || argument == "--help")) out.help = true;
        if (!options || !is_option(argument)) {
            out.at.push_back(i);
            continue;
        }
        const std::size_t equals = argument.find('=');
        const std::string name = argument.substr(0, equals);
        const CLI::Option* option = command.get_option_no_throw(name);
        if (!option)
            throw Error(Code::bad_value,
                        (private_words ? "there is an option that " + command.get_name() + " does not take"
                                       : "\"" + name + "\" is no option of " + command.get_name()) +
                            did_you_mean(nearest(name, option_names(command))));
        int values = std::min(option->get_type_size_min(), option->get_items_expected_min());
        if (option->get_items_expected_max() == 0) values = 0;  // a flag
        if (equals != std::string::npos) {
            if (name == "--ledger") out.ledger = argument.substr(equals + 1);
            --values;
        } else if (name == "--ledger" && i + 1 < arguments.size()) {
            out.ledger = arguments[i + 1];
        }
        i += static_cast<std::size_t>(std::max(values, 0));
    }
    return out;
}

/// How many words a command takes beside the ledger, and the place of the ledger among them.
struct Takes {
    std::vector<std::string> names;  ///< of the words beside the ledger
    std::size_t least = 0, most = 0, ledger_at = 0;
    bool ledger = false;
};
Takes takes(const CLI::App& command) {
    constexpr std::size_t any = std::numeric_limits<std::size_t>::max();
    Takes out;
    for (const CLI::Option* word : command.get_options()) {
        if (!word->get_positional()) continue;
        if (word->get_single_name() == "LEDGER" || word->get_single_name() == "NEW") {
            out.ledger = true;
            out.ledger_at = out.names.size();
            continue;
        }
        out.names.push_back(word->get_single_name());
        out.least += word->get_required();
        const bool several = word->get_expected_max() >= CLI::detail::expected_max_vector_size;
        out.most = several || out.most == any ? any : out.most + 1;
    }
    return out;
}

/// Of a first word that the ledger may stand in or not.
bool looks_like_ledger(const std::string& word, const std::string& set) {
    return word.ends_with(usual_ending) || (!set.empty() && word == set);
}

/// Whether the number of words says if the ledger is among them.
bool number_tells(const Takes& may, std::size_t given) { return may.least == may.most || given <= may.least; }

}  // namespace

std::vector<std::string> with_ledger(const CLI::App& command, std::vector<std::string> arguments,
                                     const std::string& set, bool private_words) {
    const Words words = words_of(command, arguments, private_words);
    if (words.help) return arguments;
    const Takes may = takes(command);
    const std::size_t given = words.at.size();
    const auto word = [&](std::size_t i) { return arguments[words.at[i]]; };
    const auto quoted = [&](std::size_t i) { return private_words ? "the first word" : "\"" + word(i) + "\""; };

    if (!may.ledger) {
        if (command.get_option_no_throw("--ledger") && given > may.most && looks_like_ledger(word(0), set))
            throw Error(Code::bad_value, quoted(0) + " is a word too many: " + command.get_name() +
                                             " takes the ledger from --ledger or COLDTALLY_LEDGER");
        return arguments;
    }
    const bool room = given <= may.most;  // without the ledger among the words
    if (words.ledger && given == may.most + 1 && !room)
        throw Error(Code::bad_value, quoted(may.ledger_at) + " is a word too many: --ledger names the ledger");
    if (!words.ledger && set.empty()) {
        if (given > may.ledger_at && given <= may.least)
            throw Error(Code::missing_field, may.names[given - 1] + " is required: " + quoted(may.ledger_at) +
                                                 " is taken for the ledger, as neither --ledger nor "
                                                 "COLDTALLY_LEDGER names one");
        return arguments;
    }
    if (!words.ledger && !room) return arguments;
    if (given < may.ledger_at) return arguments;
    if (!words.ledger && !number_tells(may, given) && looks_like_ledger(word(0), set)) return arguments;
    std::string ledger = words.ledger ? *words.ledger : set;
    if (ledger.starts_with("-")) ledger = "./" + ledger;  // a word that begins so would be an option
    const std::size_t at = may.ledger_at == 0 ? 0 : words.at[may.ledger_at - 1] + 1;
    arguments.insert(arguments.begin() + static_cast<std::ptrdiff_t>(at), ledger);
    return arguments;
}

std::string ledger_hint(const CLI::App& command, const std::vector<std::string>& arguments, const std::string& set) {
    const Words words = words_of(command, arguments, true);
    const Takes may = takes(command);
    if (!may.ledger || words.ledger || set.empty() || number_tells(may, words.at.size()) || words.at.size() > may.most)
        return {};
    const std::string& word = arguments[words.at.front()];
    std::error_code error;
    if (looks_like_ledger(word, set) || !std::filesystem::is_regular_file(word, error)) return {};
    return " (\"" + word + "\" is not taken for the ledger, as COLDTALLY_LEDGER names it; --ledger names another)";
}

}  // namespace coldtally::cli
