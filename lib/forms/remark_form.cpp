// A remark as JSON, for what is said outside of an answer.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"

namespace coldtally {

std::string to_json(const Remark& remark) {
    return forms::remark_json(remark).dump(-1, ' ', false, forms::Json::error_handler_t::replace);
}

}  // namespace coldtally
