// Prints the document of each case, one a line, for plan_schema_test.py.
#include "wire/plan_documents.hpp"

#include <cstdio>

int main() {
  for (const lynearm::wire::Case& one : lynearm::wire::cases()) {
    std::puts(lynearm::wire::document_of(one).c_str());
  }
  return 0;
}
