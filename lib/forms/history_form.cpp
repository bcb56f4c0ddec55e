#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "coldtally/forms.hpp"

namespace coldtally {

using namespace forms;

std::string to_json(const History& history, const std::vector<Duration>& allowance_seconds) {
    std::string out = json_line(entries::history_json(history, allowance_seconds));
    out.pop_back();  // a part of an entry has no line end
    return out;
}

}  // namespace coldtally
