/** Completion scripts for the shells, made from the commands themselves. */
import type { Command } from "commander";

export const shells = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof shells)[number];

interface Verb {
  readonly name: string;
  readonly says: string;
  readonly options: readonly { readonly flag: string; readonly says: string }[];
}

/** The script that a shell reads at its start. */
export function completionScript(shell: Shell, program: Command): string {
  const verbs = program.commands.map(
    (command): Verb => ({
      name: command.name(),
      says: command.description().split(/[.:]/)[0] ?? "",
      options: command.options.map(({ long, description }) => ({ flag: long ?? "", says: description })),
    }),
  );
  return { bash, zsh, fish }[shell](verbs);
}

const names = (verbs: readonly Verb[]) => verbs.map(({ name }) => name).join(" ");
const flags = ({ options }: Verb) => options.map(({ flag }) => flag).join(" ");
/** Text inside single quotes of any of the shells. */
const quoted = (text: string) => text.replaceAll("'", "’");

const bash = (verbs: readonly Verb[]) => `# bash completion; put in ~/.bashrc: source <(coilwright completion bash)
_coilwright() {
  local word="\${COMP_WORDS[COMP_CWORD]}" verb="\${COMP_WORDS[1]}"
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=( $(compgen -W '${names(verbs)}' -- "$word") )
    return
  fi
  case "$verb" in
${verbs.map((verb) => `    ${verb.name}) [[ "$word" == -* ]] && COMPREPLY=( $(compgen -W '${flags(verb)}' -- "$word") ) ;;`).join("\n")}
  esac
}
complete -o default -o bashdefault -F _coilwright coilwright
`;

const zsh = (verbs: readonly Verb[]) => `#compdef coilwright
# zsh completion; put in ~/.zshrc: source <(coilwright completion zsh)
_coilwright() {
  local -a verbs
  verbs=(
${verbs.map(({ name, says }) => `    '${name}:${quoted(says)}'`).join("\n")}
  )
  if (( CURRENT == 2 )); then
    _describe 'verb' verbs
    return
  fi
  case "\${words[2]}" in
${verbs.map(({ name, options }) => `    ${name}) _arguments ${options.map(({ flag, says }) => `'${flag}[${quoted(says).replaceAll("[", "(").replaceAll("]", ")")}]'`).join(" ")} '*:file:_files' ;;`).join("\n")}
  esac
}
compdef _coilwright coilwright
`;

const fish = (verbs: readonly Verb[]) => `# fish completion; put in ~/.config/fish/completions/coilwright.fish
${verbs.map(({ name, says }) => `complete -c coilwright -n __fish_use_subcommand -a ${name} -d '${quoted(says)}'`).join("\n")}
${verbs
  .flatMap(({ name, options }) =>
    options.map(
      ({ flag, says }) =>
        `complete -c coilwright -n '__fish_seen_subcommand_from ${name}' -l ${flag.replace(/^--/, "")} -d '${quoted(says)}'`,
    ),
  )
  .join("\n")}
`;
