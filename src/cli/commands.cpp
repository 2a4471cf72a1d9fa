#include "cli/commands.hpp"

namespace lynearm::cli {

std::vector<Command> commands() {
  return {
      plan_command(),  strip_command(), gauge_command(), reduce_command(),
      blend_command(), table_command(), wort_command(),
  };
}

}  // namespace lynearm::cli
