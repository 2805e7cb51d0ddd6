#pragma once

#include "app/system/environment.h"
#include "app/verbs/program.h"

#include <sstream>
#include <string>
#include <vector>

// The program as a test calls it: no terminal, the data of the sources.

namespace leafwright::test {

struct Ran {
  int code = -1;
  std::string out, error;
};

struct Given {
  const char* epoch = nullptr;                    // SOURCE_DATE_EPOCH
  const char* (*variable)(const char*) = nullptr; // other variables of the environment
};

inline Ran run_program(const std::vector<std::string>& words, const Given& given = {}) {
  std::ostringstream out, error;
  app::Environment environment{out, error};
  environment.data = LEAFWRIGHT_SOURCE_DIR;
  environment.source_date_epoch = given.epoch;
  if (given.variable != nullptr) environment.variable = given.variable;
  Ran ran;
  ran.code = app::run(words, environment);
  ran.out = out.str();
  ran.error = error.str();
  return ran;
}

// The project file of a sample.
inline std::string sample(const char* name) {
  return std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + name + "/project.xml";
}

} // namespace leafwright::test
