// For same_rows_test.py: texts in, the rows that delimited/ finds in them out.
//
// In:  for each text a line "SIZE PIECE" and SIZE bytes, to be fed PIECE bytes at a time.
// Out: for each text its rows, cells ended by 0x1F and rows by 0x1E, a faulty row being 0x15;
//      a text is ended by 0x1D.
#include <iostream>
#include <string>

#include "delimited/scanner.hpp"

namespace {

using lynearm::delimited::Scanner;

void print_found(Scanner& scanner) {
  for (Scanner::Found found = scanner.next(); found != Scanner::Found::nothing;
       found = scanner.next()) {
    if (found == Scanner::Found::fault) {
      std::cout << '\x15';
    } else {
      for (const std::string_view cell : scanner.cells()) std::cout << cell << '\x1F';
    }
    std::cout << '\x1E';
  }
}

}  // namespace

int main() {
  std::size_t size = 0;
  std::size_t piece = 0;
  while (std::cin >> size >> piece && std::cin.get() == '\n') {
    std::string text(size, '\0');
    std::cin.read(text.data(), static_cast<std::streamsize>(size));
    Scanner scanner({});
    for (std::size_t at = 0; at < size; at += piece) {
      scanner.feed(std::string_view(text).substr(at, piece));
      print_found(scanner);
    }
    scanner.finish();
    print_found(scanner);
    std::cout << '\x1D';
  }
}
