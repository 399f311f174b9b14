import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { UsageError } from "./environment.ts";

/** A command as a shell completes it. */
type CompletedCommand = {
  readonly name: string;
  readonly about: string;
  readonly options: readonly { readonly name: string; readonly about: string; readonly takesValue: boolean }[];
  /** Words that its argument is one of; none: files, for jobs are files. */
  readonly words: readonly string[];
};

const SHELLS = { bash: bashScript, zsh: zshScript, fish: fishScript };

/** The script by which a shell completes commands, options and jobs. */
export function completionScript(shell: string, commands: readonly CompletedCommand[]): string {
  if (Object.hasOwn(SHELLS, shell)) return SHELLS[shell as keyof typeof SHELLS](commands);
  const names = Object.keys(SHELLS);
  const near = didYouMean(shell, names);
  throw new UsageError(
    `no completion for \`${shell}\`: ${near ? `did you mean \`${near}\`?` : `there is one for ${names.join(", ")}`}`,
  );
}

const namesOf = (commands: readonly CompletedCommand[]) => commands.map(({ name }) => name).join(" ");

function bashScript(commands: readonly CompletedCommand[]): string {
  const cases = commands.map(({ name, options, words }) => {
    const list = [...options.map((one) => one.name), ...words].join(" ");
    return `    ${name}) words="${list}" ;;`;
  });
  return `# headsheet completion bash > ~/.local/share/bash-completion/completions/headsheet
_headsheet() {
  local word="\${COMP_WORDS[COMP_CWORD]}" words
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${namesOf(commands)}" -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
  COMPREPLY=($(compgen -W "$words" -- "$word"))
  case "$word" in -*) ;; *) COMPREPLY+=($(compgen -d -S / -- "$word") $(compgen -f -X '!*.@(yaml|yml|csv|tsv|txt)' -- "$word")) ;; esac
}
shopt -s extglob
complete -o filenames -F _headsheet headsheet
`;
}

/** A text between single quotes. */
const quoted = (text: string, quote = "'\\''") => `'${text.replaceAll("'", quote)}'`;

function zshScript(commands: readonly CompletedCommand[]): string {
  const label = (text: string) => text.replace(/[\\:[\]]/g, "\\$&");
  const cases = commands.map(({ name, options, words }) => {
    const specs = options.map((one) =>
      quoted(`*${one.name}[${label(one.about)}]${one.takesValue ? ":value:_files" : ""}`),
    );
    const rest = words.length > 0 ? quoted(`*:word:(${words.join(" ")})`) : "'*:file:_files'";
    return `    ${name}) _arguments ${[...specs, rest].join(" ")} ;;`;
  });
  return `#compdef headsheet
# headsheet completion zsh > a folder of $fpath, as _headsheet
_headsheet() {
  if (( CURRENT == 2 )); then
    local -a names=(${commands.map(({ name, about }) => quoted(`${name}:${label(about)}`)).join(" ")})
    _describe command names
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${cases.join("\n")}
  esac
}
compdef _headsheet headsheet
`;
}

function fishScript(commands: readonly CompletedCommand[]): string {
  const text = (one: string) => quoted(one, "\\'");
  const lines = commands.flatMap(({ name, about, options, words }) => {
    const inside = `complete -c headsheet -n '__fish_seen_subcommand_from ${name}'`;
    return [
      `complete -c headsheet -n __fish_use_subcommand -f -a ${name} -d ${text(about)}`,
      ...options.map((one) => `${inside} -l ${one.name.slice(2)}${one.takesValue ? " -r" : ""} -d ${text(one.about)}`),
      ...(words.length > 0 ? [`${inside} -f -a ${text(words.join(" "))}`] : []),
    ];
  });
  return `# headsheet completion fish > ~/.config/fish/completions/headsheet.fish\n${lines.join("\n")}\n`;
}
