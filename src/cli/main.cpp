// The program lynearm; everything in it is a library, so that tests can link it.
#include "cli/run.hpp"

int main(int argc, char** argv) { return lynearm::cli::run(argc, argv); }
