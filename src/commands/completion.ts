import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { UsageError } from "./environment.ts";

/** An option as a shell completes it; `values` are the words that its value is one of, none: a file or a free text. */
type CompletedOption = {
  readonly name: string;
  readonly about: string;
  readonly takesValue: boolean;
  readonly values: readonly string[];
};

/** A command as a shell completes it. */
type CompletedCommand = {
  readonly name: string;
  readonly about: string;
  readonly options: readonly CompletedOption[];
  /** Words that its argument is one of; none: files, for jobs are files. */
  readonly words: readonly string[];
};

const SHELLS = { bash: bashScript, zsh: zshScript, fish: fishScript };

/** The script by which a shell completes commands, options and jobs; `own` are the options without a command. */
export function completionScript(
  shell: string,
  commands: readonly CompletedCommand[],
  own: readonly CompletedOption[],
): string {
  if (Object.hasOwn(SHELLS, shell)) return SHELLS[shell as keyof typeof SHELLS](commands, own);
  const names = Object.keys(SHELLS);
  const near = didYouMean(shell, names);
  throw new UsageError(
    `no completion for \`${shell}\`: ${near ? `did you mean \`${near}\`?` : `there is one for ${names.join(", ")}`}`,
  );
}

const namesOf = (commands: readonly CompletedCommand[]) => commands.map(({ name }) => name).join(" ");

function bashScript(commands: readonly CompletedCommand[], own: readonly CompletedOption[]): string {
  const optionNames = (options: readonly CompletedOption[]) => options.map(({ name }) => name).join(" ");
  const cases = commands.map(
    ({ name, options, words }) => `    ${name}) options="${optionNames(options)}" words="${words.join(" ")}" ;;`,
  );
  const all = commands.flatMap(({ options }) => options).filter(({ values }) => values.length > 0);
  const values = new Map(all.map(({ name, values }) => [name, values.join(" ")]));
  const valueCases = [...values].map(([name, words]) => `    ${name}) words="${words}" ;;`);
  return `# headsheet completion bash > ~/.local/share/bash-completion/completions/headsheet
_headsheet() {
  local word="\${COMP_WORDS[COMP_CWORD]}" options="${optionNames(own)}" words="${namesOf(commands)}"
  [ "$COMP_CWORD" -gt 1 ] && case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
  case "\${COMP_WORDS[COMP_CWORD-1]}" in
${valueCases.join("\n")}
  esac
  case "$word" in -*) words="$options" ;; esac
  if [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$word"))
  else
    COMPREPLY=($(compgen -d -S / -- "$word") $(compgen -f -X '!*.@(yaml|yml|csv|tsv|txt)' -- "$word"))
  fi
}
shopt -s extglob
complete -o filenames -F _headsheet headsheet
`;
}

/** A text between single quotes. */
const quoted = (text: string, quote = "'\\''") => `'${text.replaceAll("'", quote)}'`;

const valuesForZsh = ({ values }: CompletedOption) => (values.length > 0 ? `(${values.join(" ")})` : "_files");

function zshScript(commands: readonly CompletedCommand[], own: readonly CompletedOption[]): string {
  const label = (text: string) => text.replace(/[\\:[\]]/g, "\\$&");
  const cases = commands.map(({ name, options, words }) => {
    const specs = options.map((one) =>
      quoted(`*${one.name}[${label(one.about)}]${one.takesValue ? `:value:${valuesForZsh(one)}` : ""}`),
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
    compadd -- ${own.map(({ name }) => name).join(" ")}
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

function fishScript(commands: readonly CompletedCommand[], own: readonly CompletedOption[]): string {
  const text = (one: string) => quoted(one, "\\'");
  const value = ({ takesValue, values }: CompletedOption) =>
    values.length > 0 ? ` -x -a ${text(values.join(" "))}` : takesValue ? " -r" : "";
  const option = (one: CompletedOption) => `-l ${one.name.slice(2)}${value(one)} -d ${text(one.about)}`;
  const alone = own.map((one) => `complete -c headsheet -n __fish_use_subcommand ${option(one)}`);
  const lines = commands.flatMap(({ name, about, options, words }) => {
    const inside = `complete -c headsheet -n '__fish_seen_subcommand_from ${name}'`;
    return [
      `complete -c headsheet -n __fish_use_subcommand -f -a ${name} -d ${text(about)}`,
      ...options.map((one) => `${inside} ${option(one)}`),
      ...(words.length > 0 ? [`${inside} -f -a ${text(words.join(" "))}`] : []),
    ];
  });
  return `# headsheet completion fish > ~/.config/fish/completions/headsheet.fish\n${[...alone, ...lines].join("\n")}\n`;
}
