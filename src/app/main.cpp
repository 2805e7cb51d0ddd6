#include "app/verbs/program.h"

#include <cstdlib>
#include <exception>
#include <iostream>
#include <new>

#include <unistd.h>

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  try {
    const leafwright::app::Environment environment{
        std::cout,
        std::cerr,
        isatty(STDOUT_FILENO) == 1,
        isatty(STDERR_FILENO) == 1,
        std::getenv("NO_COLOR"),
        std::getenv("SOURCE_DATE_EPOCH"),
        std::getenv("LEAFWRIGHT_DATA"),
        [](const char* name) -> const char* { return std::getenv(name); },
    };
    const int code =
        leafwright::app::run({words + (count > 0 ? 1 : 0), words + count}, environment);
    std::cout.flush();
    return std::cout.good() ? code : 3;
  } catch (const std::bad_alloc&) {
    std::cerr << "leafwright: not enough memory for this project; nothing was written\n";
  } catch (const std::exception& fault) {
    std::cerr << "leafwright: " << fault.what()
              << "; this is a fault of the program: nothing was written\n";
  }
  return 3;
}
