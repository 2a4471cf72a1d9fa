#include "cli/commands.hpp"

namespace lynearm::cli {

std::vector<Command> commands() {
  return {
      plan_command(),      strip_command(),  spirit_command(), follow_command(),
      fit_still_command(), vapour_command(), cut_command(),    gauge_command(),
      reduce_command(),    blend_command(),  table_command(),  wort_command(),
      serve_command(),     sheet_command(),  backup_command(), restore_command(),
      export_command(),    import_command(), admit_command(),
  };
}

}  // namespace lynearm::cli
