// Duties: the JSON of the kinds loan, repayment, follow-up and training.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

class Fields;

/// Each reads, or adds to `out`, the fields of its kind. Reading throws Error.
Loan read_loan(Fields& f);
Repayment read_repayment(Fields& f);
FollowUp read_follow_up(Fields& f);
Training read_training(Fields& f);

void print_loan(nlohmann::ordered_json& out, const Loan& l);
void print_repayment(nlohmann::ordered_json& out, const Repayment& r);
void print_follow_up(nlohmann::ordered_json& out, const FollowUp& u);
void print_training(nlohmann::ordered_json& out, const Training& t);

}  // namespace coldtally::entries
