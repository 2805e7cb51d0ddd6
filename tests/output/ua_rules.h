#pragma once

#include <string>
#include <vector>

namespace leafwright::ua {

// The rules of PDF/UA-1 (ISO 14289-1) that a program can look at, applied to a finished file: each
// breach as one line, clause first. Clause numbers are from memory of the standard. What only a
// person can judge (whether a description describes, whether the order makes sense) is not here.
std::vector<std::string> breaches(const std::string& pdf);

// How many elements of each type the tree holds: to know that the rules had something to look at.
int count_of(const std::string& pdf, const std::string& type);

} // namespace leafwright::ua
