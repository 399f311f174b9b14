import { Command, Option } from "commander";
import type { Environment, ExitCode } from "../commands/environment.ts";
import { UsageError } from "../commands/environment.ts";
import { fitLines } from "../commands/fit-width.ts";
import type { TakeOptions } from "../commands/take/take.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";

/** Help is set no wider than this [columns]. */
const HELP_WIDTH = 80;
const PAPERS = ["A4", "Letter"];
const HELP_END = `
Exit codes: 0 all done, 1 a job was refused, 2 wrong use or a failure of the program.
Report a fault of the program to the place you have it from, with the job, what was said, and headsheet --version.`;
type CommonOptions = {
  readonly template?: string;
  readonly paper?: "A4" | "Letter";
  readonly units?: string;
  readonly strict?: true;
};

type Done = (code: ExitCode) => void;

/** The commands and their options; each imports its code when it runs. */
export function createProgram(environment: Environment, done: Done): Command {
  const helpWidth = Math.min(environment.width ?? HELP_WIDTH, HELP_WIDTH);
  const program = new Command("headsheet")
    .description("One typed file per cylinder head in, a clear and honest sheet out.")
    .version(environment.version)
    .addHelpText("before", "Example: headsheet make jobs/mine.yaml\n")
    .addHelpText("after", HELP_END)
    .option("--no-color", "no colours in messages")
    .helpCommand(false)
    .showSuggestionAfterError()
    .exitOverride()
    .configureHelp({ helpWidth, minWidthToWrap: 20 })
    .configureOutput({ writeOut: (text) => environment.out(fitLines(text, helpWidth)), writeErr: environment.err });

  for (const add of COMMANDS) add(program, environment, done);
  addCompletion(program, environment);
  addHelp(program);
  return program;
}

/** Words that the argument of a command, or the value of an option, is one of. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  template: ["handover", "engine", "attachment", "catalogue"],
  side: ["intake", "exhaust"],
  separator: ["tab", "comma", "semicolon", "blank"],
  decimal: ["point", "comma"],
  schema: ["job", "shop", "template", "figures"],
  completion: ["bash", "zsh", "fish"],
};

/** The options of a command, with the words that their values are one of. */
const optionsOf = ({ options }: Command) =>
  [...options, new Option("--help", "explain the command")].flatMap(({ long, description, required, argChoices }) =>
    long
      ? [{ name: long, about: description, takesValue: required, values: argChoices ?? WORDS[long.slice(2)] ?? [] }]
      : [],
  );

function addCompletion(program: Command, environment: Environment): void {
  program
    .command("completion")
    .argument("<shell>", "bash, zsh or fish")
    .description("print the script by which a shell completes commands, options and jobs")
    .addHelpText("before", 'Example: eval "$(headsheet completion bash)"\n')
    .action(async (shell: string) => {
      const { completionScript } = await import("../commands/completion.ts");
      const names = program.commands.map((one) => one.name());
      const commands = program.commands.map((one) => ({
        name: one.name(),
        about: one.description(),
        options: optionsOf(one),
        words: one.name() === "help" ? names : (WORDS[one.name()] ?? []),
      }));
      environment.out(completionScript(shell, commands, optionsOf(program)));
    });
}

function addHelp(program: Command): void {
  const names = program.commands.map((one) => one.name());
  program
    .command("help")
    .argument("[command]", "what to explain; none: all of it")
    .description("explain a command")
    .addHelpText("before", "Example: headsheet help make\n")
    .action((name: string | undefined) => {
      const found = name === undefined ? program : program.commands.find((one) => one.name() === name);
      if (found) return found.outputHelp();
      const near = didYouMean(name!, names);
      throw new UsageError(`there is no command \`${name}\`${near === undefined ? "" : `: did you mean \`${near}\`?`}`);
    });
}

function addMake(program: Command, environment: Environment, done: Done): void {
  program
    .command("make")
    .argument("[jobs...]", "job files or folders; none: every job under jobs/")
    .description("make the sheets of the jobs and print their paths")
    .option("--out <folder>", "where the sheets go", "out")
    .option("--template <names>", "template to print instead of those the job names; several with commas between")
    .addOption(paper())
    .addOption(units())
    .option("--strict", "refuse to compare what was not measured alike")
    .option("--png", "also write each page as a picture")
    .option("--force", "make also the sheets that would come out as they stand")
    .addOption(new Option("--json", "sheets and messages as one JSON object").conflicts("together"))
    .addOption(
      new Option("--together", "one catalogue of all products among the jobs, with contents").conflicts([
        "template",
        "png",
      ]),
    )
    .addHelpText("before", "Example: headsheet make jobs/mine.yaml --paper Letter\n")
    .action(async (jobs: string[], options: MakeArguments) => {
      if (options.together) {
        const { makeCatalogue } = await import("../commands/catalogue/make-catalogue.ts");
        done(await makeCatalogue(jobs, { ...(await parseOverrides(options)), outFolder: options.out }, environment));
        return;
      }
      const { make } = await import("../commands/make/make.ts");
      const { out: outFolder, png = false, force = false, json = false } = options;
      done(await make(jobs, { ...(await parseOverrides(options)), outFolder, png, force, json }, environment));
    });
}

function addCheck(program: Command, environment: Environment, done: Done): void {
  program
    .command("check")
    .argument("[jobs...]", "job files or folders, or - for what is pasted; none: every job under jobs/")
    .description("say all that is wrong with the jobs; writes nothing")
    .option("--strict", "refuse to compare what was not measured alike")
    .option("--json", "what is wrong as one JSON object")
    .addHelpText("before", "Example: headsheet check jobs/mine.yaml\n")
    .action(async (jobs: string[], { json = false, ...options }: CommonOptions & { json?: boolean }) => {
      const { check } = await import("../commands/check.ts");
      done(await check(jobs, { ...(await parseOverrides(options)), json }, environment));
    });
}

function addFigures(program: Command, environment: Environment, done: Done): void {
  program
    .command("figures")
    .argument("<job>", "a job file")
    .description("print the figures of a job")
    .addOption(new Option("--json", "as one JSON object, in SI").conflicts("csv"))
    .option("--csv", "only the readings, for a spreadsheet")
    .addOption(units())
    .addHelpText("before", "Example: headsheet figures jobs/mine.yaml --json\n")
    .action(async (job: string, options: CommonOptions & { json?: true; csv?: true }) => {
      const { showFigures } = await import("../commands/figures.ts");
      done(
        showFigures(
          job,
          options.json ? "json" : options.csv ? "csv" : "text",
          await parseOverrides(options),
          environment,
        ),
      );
    });
}

function addMail(program: Command, environment: Environment, done: Done): void {
  program
    .command("mail")
    .argument("<job>", "a job file")
    .description("write a mail draft with the job's sheet attached; nothing is sent")
    .option("--out <folder>", "where the draft goes", "out")
    .option("--template <name>", "sheet to attach instead of the job's own")
    .addOption(paper())
    .addOption(units())
    .addHelpText("before", "Example: headsheet mail jobs/mine.yaml\n")
    .action(async (job: string, options: CommonOptions & { out: string }) => {
      const { writeMail } = await import("../commands/mail/mail.ts");
      done(await writeMail(job, { ...(await parseOverrides(options)), outFolder: options.out }, environment));
    });
}

function addForm(program: Command, environment: Environment, done: Done): void {
  program
    .command("form")
    .argument("<job>", "a job file")
    .description("print a blank bench form, in the order of the job file")
    .option("--out <folder>", "where the form goes", "out")
    .option("--stage <name>", "one of the job's stages, or a new one; none: the first without readings")
    .option("--cylinder <number>", "which cylinder is flowed; none: a blank for it")
    .option("--lifts <lifts>", 'lifts to flow at, such as "0.050 0.100 0.150"')
    .addOption(paper())
    .addOption(units())
    .addHelpText("before", "Example: headsheet form jobs/mine.yaml\n")
    .action(
      async (
        job: string,
        options: CommonOptions & { out: string; stage?: string; cylinder?: string; lifts?: string },
      ) => {
        const { writeForm } = await import("../commands/form.ts");
        const { stage, cylinder, lifts, out } = options;
        done(
          await writeForm(
            job,
            { ...(await parseOverrides(options)), outFolder: out, stage, cylinder, lifts },
            environment,
          ),
        );
      },
    );
}

function addCard(program: Command, environment: Environment, done: Done): void {
  program
    .command("card")
    .argument("<job>", "a job file")
    .description("make a picture for a message: the headline, without customer or ticket")
    .option("--out <folder>", "where the picture goes", "out")
    .addOption(units())
    .addHelpText("before", "Example: headsheet card jobs/mine.yaml\n")
    .action(async (job: string, options: CommonOptions & { out: string }) => {
      const { writeCard } = await import("../commands/card.ts");
      done(await writeCard(job, { ...(await parseOverrides(options)), outFolder: options.out }, environment));
    });
}

function addNew(program: Command, environment: Environment, done: Done): void {
  program
    .command("new")
    .argument("<file>", "the job file to write")
    .description("write a commented starter job; never over a file that is there")
    .addOption(new Option("--product", "a head sold again and again, compiled from other jobs").conflicts("from"))
    .option("--from <job>", "for another head of a kind: that job's head and engine, not its customer or readings")
    .option("--sizes", "with --from: its sizes and work as well")
    .addHelpText("before", "Example: headsheet new jobs/mine.yaml\n")
    .action(async (file: string, options: { product?: boolean; from?: string; sizes?: boolean }) => {
      const { product = false, sizes = false, from } = options;
      if (sizes && from === undefined) throw new UsageError("--sizes needs --from, the job to take them from");
      const { createJob } = await import("../commands/new-job.ts");
      done(createJob(file, { product, sizes, ...(from === undefined ? {} : { from }) }, environment));
    });
}

function addTake(program: Command, environment: Environment, done: Done): void {
  program
    .command("take")
    .argument("<readings>", "a text file from a spreadsheet or logger, or - for what is pasted")
    .option("--into <job>", "the job that gets the readings")
    .option(
      "--stage <name>",
      "the stage they belong to; twice for a table with columns before and after the work",
      (name: string, others: readonly string[] = []) => [...others, name],
    )
    .description("put readings from a spreadsheet or logger into a stage of a job; all else in it stays as typed")
    .option("--new-stage", "make that stage, at the end of the job")
    .option("--replace", "put them in place of the readings that are there")
    .option("--dry-run", "write nothing, print what would be written")
    .option("--side <side>", "for a file of lift and flow: intake or exhaust")
    .option("--columns <names>", "what the columns are: lift,intake,exhaust; with - for one to leave out")
    .option("--units <units>", "units that the head does not say: length=mm,flow=l/s")
    .option("--separator <separator>", "what parts the columns: tab, comma, semicolon or blank")
    .option("--decimal <mark>", "what parts the decimals: point or comma")
    .option("--cylinder <number>", "as a run of its own: of this cylinder")
    .option("--set <name>", "as a run of its own: under these conditions")
    .option("--mount <number>", "as a run of its own: 2 once the head was taken off and put back")
    .option("--hand <name>", "as a run of its own: of this one of unlike ports")
    .addHelpText("before", "Example: headsheet take bench.csv --into jobs/mine.yaml --stage Finished\n")
    .addHelpText(
      "after",
      "\nPasted: headsheet take - --into jobs/mine.yaml --stage Finished, paste, then Ctrl-D (Windows: Ctrl-Z, Enter).",
    )
    .action(async (readings: string, options: TakeOptions) => {
      const { take } = await import("../commands/take/take.ts");
      done(await take(readings, options, environment));
    });
}

function addSchema(program: Command, environment: Environment, done: Done): void {
  program
    .command("schema")
    .argument("[name]", "job, shop, template or figures", "job")
    .description("print the JSON Schema of a file, for editors and other programs")
    .addHelpText("before", "Example: headsheet schema job > job.schema.json\n")
    .action(async (name: string) => {
      const { printSchema } = await import("../commands/schema.ts");
      done(printSchema(name, environment));
    });
}

function addShelf(program: Command, environment: Environment, done: Done): void {
  program
    .command("shelf")
    .argument("[folder]", "folder of the jobs; none: jobs/")
    .description("every job in one table, for the shop's own eyes; or the heads most alike to one")
    .option("--sort <key>", "order, such as issued or intake.peak:desc")
    .option(
      "--where <condition>",
      "only jobs such as intake.valve>=42mm or head~alloy; again for more conditions",
      (one: string, more: readonly string[]) => [...more, one],
      [],
    )
    .option("--near <job>", "rank the heads by how alike they are to this job, with lines for its `compare`")
    .option("--most <count>", "how many of them", "10")
    .addOption(units())
    .option("--pressure <pressure>", "test pressure that all flows are converted to, such as 28inH2O")
    .addOption(new Option("--json", "as one JSON object, in SI").conflicts("csv"))
    .option("--csv", "every key as a column, for a spreadsheet")
    .addOption(
      new Option("--pdf <file>", "an index to print: a file, or a folder for shelf.pdf").conflicts([
        "json",
        "csv",
        "near",
      ]),
    )
    .option("--no-cache", "work every job out again, and keep nothing for the next time")
    .addHelpText("before", "Example: headsheet shelf --where intake.valve>=42mm --sort intake.peak:desc\n")
    .action(async (folder: string | undefined, options: ShelfArguments) => {
      const { showShelf } = await import("../commands/shelf/shelf.ts");
      const { units: shown, most, json, csv, ...rest } = options;
      const { units } = await parseOverrides({ ...(shown && { units: shown }) });
      const form = json ? "json" : csv ? "csv" : "text";
      done(
        await showShelf(
          folder,
          { ...rest, ...(units && { units }), most: parseCount("--most", most), form },
          environment,
        ),
      );
    });
}

function addDiff(program: Command, environment: Environment, done: Done): void {
  program
    .command("diff")
    .argument("<a>", "a job file")
    .argument("<b>", "another job, or another revision of the same")
    .description("say what changed between two jobs, in words and in figures beyond their ±")
    .option("--json", "as one JSON object, in SI")
    .addOption(units())
    .addHelpText("before", "Example: headsheet diff jobs/mine.yaml jobs/mine-rev2.yaml\n")
    .action(async (a: string, b: string, options: CommonOptions & { json?: true }) => {
      const { showDiff } = await import("../commands/diff/diff.ts");
      done(showDiff(a, b, options.json ? "json" : "text", await parseOverrides(options), environment));
    });
}

function addWatch(program: Command, environment: Environment, done: Done): void {
  program
    .command("watch")
    .argument("[jobs...]", "job files or folders; none: every job under jobs/")
    .description("show a live page of the jobs while they are typed, on this machine only")
    .option("--port <number>", "port of the page's address; none: that of the last start, else any that is free")
    .option("--fresh", "at a new address; the last one is no longer served")
    .addHelpText("before", "Example: headsheet watch jobs/mine.yaml\n")
    .action(async (jobs: string[], options: { port?: string; fresh?: true }) => {
      const { watch } = await import("../commands/watch/watch.ts");
      done(await watch(jobs, options, environment));
    });
}

const COMMANDS = [
  addMake,
  addCheck,
  addFigures,
  addMail,
  addForm,
  addCard,
  addNew,
  addTake,
  addSchema,
  addShelf,
  addDiff,
  addWatch,
];

const paper = () => new Option("--paper <paper>", "paper of the sheets").choices(PAPERS);
const units = () => new Option("--units <units>", "print in imperial, metric, or pairs such as flow=l/s,length=mm");

type MakeArguments = CommonOptions & {
  readonly out: string;
  readonly png?: true;
  readonly force?: true;
  readonly json?: true;
  readonly together?: true;
};

type ShelfArguments = {
  readonly sort?: string;
  readonly where: readonly string[];
  readonly near?: string;
  readonly most: string;
  readonly units?: string;
  readonly pressure?: string;
  readonly json?: true;
  readonly csv?: true;
  readonly pdf?: string;
  readonly cache: boolean;
};

function parseCount(option: string, typed: string): number {
  if (!/^[1-9]\d{0,4}$/.test(typed)) throw new UsageError(`${option} takes a whole number from 1: \`${typed}\``);
  return Number(typed);
}

async function parseOverrides({ template, paper, units, strict }: CommonOptions) {
  const shown = units === undefined ? undefined : (await import("../commands/parse-units.ts")).parseUnits(units);
  return {
    ...(template && { templates: template.split(",").map((name) => name.trim()) }),
    ...(paper && { paper }),
    ...(shown && { units: shown }),
    ...(strict && { strict }),
  };
}
