// Plan: the contingency plan that holds, and what is missing or old in it.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

PlanAnswer plan(World& world);

/// What is missing or old in the plan that holds, at the instant of the question; one finding where there is no plan.
std::vector<PlanFinding> plan_findings(World& world);
/// The same of a plan that is to be posted with this `at`: what is missing is missing since then.
std::vector<PlanFinding> plan_findings(const World& world, const Plan& plan, Instant at);

}  // namespace coldtally::answers
