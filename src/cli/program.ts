/** The verbs, their options and their help. What they do stands in `commands/`, fetched when it is asked for. */
import { Argument, Command, Option } from "commander";
import manifest from "../../package.json" with { type: "json" };
import type { BurstCommandOptions } from "./commands/burst.ts";
import type { StandoffOptions } from "./commands/standoff.ts";
import type { WhyOptions } from "./commands/why.ts";
import { completionScript, type Shell, shells } from "./completion.ts";
import { exit } from "./exit.ts";
import type { Io } from "./io.ts";
import type { MatchCommandOptions } from "./match-options.ts";
import type { PapersCommandOptions } from "./papers-options.ts";
import type { PlayOptions } from "./play-options.ts";

const examples = (...lines: readonly string[]) => `\nExamples:\n${lines.map((line) => `  $ ${line}`).join("\n")}\n`;

const closing = `
FILE is a coil file; - stands for standard input.
Exit codes: 0 nothing to stop for or to fix, 1 findings, 2 the file or the command cannot be read.
High voltage, mains and stored energy can kill. No output of this program is a permission.
`;

/**
 * The command line.
 * @param done  told the exit code of the verb that ran
 */
export function programOf(io: Io, done: (code: number) => void): Command {
  const program = new Command("coilwright")
    .description("Designs, predicts, tunes and checks double-resonant solid-state Tesla coils.")
    .version(manifest.version, "-V, --version", "print the version")
    .helpOption("-h, --help", "show help")
    .helpCommand(false)
    .showHelpAfterError("(coilwright --help lists the verbs, coilwright VERB --help their options)")
    .addHelpText("after", closing)
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: (text) => io.err(text),
      getOutHelpWidth: () => io.width,
    })
    .exitOverride();

  const verb = (name: string, says: string) => program.command(name).description(says);
  const json = ["--json", "print figures and findings as JSON, values in SI"] as const;

  verb("new", "Makes a new coil file.")
    .argument("<file>", "the file to make; one that is there is left alone")
    .option("--demo <name>", "start from an example that comes with the program")
    .addHelpText("after", examples("coilwright new lantern.yaml", "coilwright new lantern.yaml --demo lantern"))
    .action(async (file: string, options: { demo?: string }) =>
      done(await (await import("./commands/new.ts")).create(io, file, options)),
    );

  verb("check", "Shape: is it buildable, and what will go wrong? Lists findings, worst first, with what can be done.")
    .argument("<file>", "coil file, or -")
    .option("--apply <rule.n...>", "apply remedy N of a finding to the file, then check it again")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright check lantern.yaml",
        "coilwright check lantern.yaml --apply mistuned.1",
        "coilwright check - --json < lantern.yaml",
      ),
    )
    .action(async (file: string, options: { apply?: string[]; json?: boolean }) =>
      done(await (await import("./commands/check.ts")).check(io, file, options)),
    );

  verb("tune", "Resonance: where does it ring, is it tuned, what moves the tune?")
    .argument("<file>", "coil file, or -")
    .option("--sure", "solve it again with every number a little off, and show 90 % intervals")
    .option("--why <id>", "explain one figure instead")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright tune lantern.yaml",
        "coilwright tune lantern.yaml --sure",
        "coilwright tune lantern.yaml --json",
      ),
    )
    .action(async (file: string, options: { sure?: boolean; why?: string; json?: boolean }) =>
      done(await (await import("./commands/tune.ts")).tune(io, file, options)),
    );

  verb("burst", "Burst: what happens in one burst, who pays for it, and how far it reaches.")
    .argument("<file>", "coil file, or -")
    .option("--on-time <time>", "as if the interrupter gave this, e.g. 80us")
    .option("--rate <frequency>", "as if the interrupter gave this, e.g. 200Hz")
    .option("--bus <voltage>", "of the whole bus, e.g. 60V for a first trial")
    .option("--breakout <voltage>", "of the top, where a point or a scratch makes it less, e.g. 40kV")
    .option("--no-streamer", "as if the top never broke out")
    .option("--reversed", "with the sense transformer's leads the other way round")
    .option("--modes <count>", "modes of the secondary in the circuit, 1 to 3; 1 where left out")
    .option("--csv <file>", "write the waveforms as a table, SI in its header; - prints it")
    .option("--svg <file>", "write the waveforms as a picture; - prints it")
    .option("--sure", "solve it again with every number a little off, and show 90 % intervals")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright burst lantern.yaml",
        "coilwright burst lantern.yaml --on-time 80us --rate 200Hz",
        "coilwright burst lantern.yaml --bus 60V --no-streamer",
        "coilwright burst lantern.yaml --svg burst.svg --csv burst.csv",
      ),
    )
    .action(async (file: string, options: BurstCommandOptions) =>
      done(await (await import("./commands/burst.ts")).burst(io, file, options)),
    );

  verb("driver", "Driver: do supply, bridge, gate drive, feedback and trips hold?")
    .argument("<file>", "coil file, or -")
    .option("--sure", "solve it again with every number a little off, and show 90 % intervals")
    .option(...json)
    .addHelpText("after", examples("coilwright driver lantern.yaml", "coilwright driver lantern.yaml --json"))
    .action(async (file: string, options: { sure?: boolean; json?: boolean }) =>
      done(await (await import("./commands/driver.ts")).driver(io, file, options)),
    );

  verb("standoff", "Stand-off: who must stand where, and what can still hurt? Never a permission.")
    .argument("<file>", "coil file, or -")
    .option("--checklist", "with the checklist of the show day, for two people")
    .option("--plan <file>", "write the room from above, to scale, as a picture; - prints it")
    .option("--section <file>", "write the room in section, to scale, as a picture; - prints it")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright standoff lantern.yaml",
        "coilwright standoff lantern.yaml --checklist",
        "coilwright standoff lantern.yaml --plan plan.svg --section section.svg",
      ),
    )
    .action(async (file: string, options: StandoffOptions) =>
      done(await (await import("./commands/standoff.ts")).standoff(io, file, options)),
    );

  const collected = (value: string, before: readonly string[] = []) => [...before, value];
  verb("match", "Bench: what do these records say, and does what I measured agree with what I drew?")
    .argument("<file>", "coil file, or -")
    .argument(
      "[capture...]",
      "records: CSV, WAV or JSON of an oscilloscope, or a sweep as CSV of frequency and amplitude",
    )
    .option(
      "--role <channel=role>",
      "what a channel was connected to, e.g. 2=primaryCurrent; again for each",
      collected,
    )
    .option("--transformer <channel=ratio/burden>", "current transformer and its burden, e.g. 2=1000/5.1", collected)
    .option(
      "--state <state>",
      "how the coil stood: cold, near, low or full; once for all, or once for each record",
      collected,
    )
    .option(
      "--bus <voltage>",
      "of the whole bus, as read off a meter; once for all, or once for each record",
      collected,
    )
    .option("--delimiter <sign>", "between columns, where it was guessed wrongly: , ; tab space |")
    .option("--decimal <sign>", "of the numbers: . or ,")
    .option("--header-lines <count>", "lines before the first row")
    .option("--interval <time>", "between samples, e.g. 50ns")
    .option(
      "--column <column=what>",
      "of a table, e.g. 1=use:time,unit:us or 3=use:ignored or 2=scale:10 or 2=codes:none; again for each",
      collected,
    )
    .option("--observed-length <length>", "of the longest streamer, e.g. 0.9m; again for each that was seen", collected)
    .option(
      "--on-time <time>",
      "of the burst that made it, e.g. 110us; once for all lengths, or once for each",
      collected,
    )
    .option("--rate <frequency>", "at which it was made, e.g. 180Hz; once for all lengths, or once for each", collected)
    .addOption(new Option("--onTime <time>", "as --on-time").argParser(collected).hideHelp())
    .option("--practice <number>", "make up a record of this coil with one thing changed, fit it, and say what it was")
    .option("--adopt", "write the fitted values into the coil file, marked as measured")
    .option("--log", "add what was read, fitted and adopted to the log beside the coil file")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright match lantern.yaml cold.csv",
        "coilwright match lantern.yaml low.csv --role 2=primaryCurrent --transformer 2=1000/5.1 --bus 60V",
        "coilwright match lantern.yaml cold.csv hand.csv --state cold --state near --json",
        "coilwright match lantern.yaml sweep.csv --adopt --log",
        "coilwright match lantern.yaml --practice 1",
        "coilwright match lantern.yaml --observed-length 0.9m --on-time 110us --rate 180Hz",
      ),
    )
    .action(async (file: string, captures: string[], options: MatchCommandOptions) =>
      done(await (await import("./commands/match.ts")).match(io, file, captures, options)),
    );

  verb("bringup", "Bench: bring it up in stages, with what each probe must show before the next switch is thrown.")
    .argument("<file>", "coil file, or -")
    .option(
      "--pickup <what>",
      "your own loop or wire and where it stands, e.g. loop:100mm,turns:2,at:1.5m or area:80cm²,at:1m or wire:0.3m,at:2m,into:probe",
    )
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright bringup lantern.yaml",
        "coilwright bringup lantern.yaml --pickup loop:100mm,turns:2,at:1.5m",
        "coilwright bringup lantern.yaml --json",
      ),
    )
    .action(async (file: string, options: { json?: boolean; pickup?: string }) =>
      done(await (await import("./commands/bringup.ts")).bringup(io, file, options)),
    );

  verb("papers", "Papers: what do I take to the bench? Writes sheets at true size, drawings for machines, and tables.")
    .argument("<file>", "coil file, or -")
    .requiredOption("--out <folder>", "where they go; made where it is not there")
    .option("--sheets <names>", "only these, by name with commas between; all that this coil has where left out")
    .option("--paper <size>", "a4 or letter; a4 where left out")
    .option("--units <system>", "of lengths: metric or inch; metric where left out")
    .option("--format <kinds>", "pdf, svg, dxf, csv, with commas between; all of them where left out")
    .option("--date <day>", "to print on the sheets, e.g. 2026-01-31; today where left out")
    .option(
      "--pictures",
      "teaching pictures of this coil as SVG, for a bright and a dark room; without --sheets no sheets",
    )
    .option("--frames <count>", "of each picture one round as a numbered series, e.g. 60")
    .option("--json", "print what was written, and what not and why, as JSON")
    .addHelpText(
      "after",
      examples(
        "coilwright papers lantern.yaml --out papers",
        "coilwright papers lantern.yaml --out papers --paper letter --units inch --format pdf",
        "coilwright papers lantern.yaml --out cut --sheets primary-plan,former-ends --format dxf",
        "coilwright papers lantern.yaml --out talk --pictures",
      ),
    )
    .action(async (file: string, options: PapersCommandOptions) =>
      done(await (await import("./commands/papers.ts")).papers(io, file, options)),
    );

  verb("play", "Programme: what may I play, and what will it do? Plans a song's pulses inside every limit of the coil.")
    .argument("<song>", "MIDI file or tune; with --tone or --sweep the coil file")
    .argument("[coil]", "coil file, or -")
    .option("--tone <frequency>", "one tone in place of a song, e.g. 440Hz")
    .option("--sweep <from..to>", "one gliding tone in place of a song, e.g. 100Hz..800Hz")
    .option("--lasts <time>", "length of the tone or sweep; 10 s where left out")
    .option("--fit", "move by octaves, thin chords and shorten pulses until it stays inside, with before and after")
    .option("--transpose <semitones>", "every tone, e.g. -12")
    .option("--mute <voice>", "by number or name; again for each", collected)
    .option("--first <voice>", "of two pulses that cannot both be, this voice keeps its own; again for each", collected)
    .option("--on-time <time>", "of the loudest note, e.g. 80us; the interrupter's where left out")
    .option("--csv <file>", "write the schedule as a table; - prints it")
    .option("--wav <file>", "write a preview of the sound")
    .option("--gate-wav <file>", "write the gate pulses for a sound card with an optical transmitter")
    .option("--gate-rate <rate>", "of that file: 44100, 48000, 96000 or 192000 samples a second")
    .option("--gate-negative", "of that file: pulses go down from silence")
    .option("--midi <file>", "write the song as it is played as a clean MIDI file")
    .option("--firmware <folder>", "write a C program for a controller that plays it and holds the limits by itself")
    .option("--idles-high", "of that program: the transmitter is dark while the output is high")
    .option("--why <id>", "explain one figure instead, e.g. programme.junctionPeak")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright play tune.mid lantern.yaml",
        "coilwright play tune.mid lantern.yaml --fit --wav tune.wav --csv tune.csv",
        "coilwright play tune.mid lantern.yaml --mute 10 --first melody",
        "coilwright play lantern.yaml --sweep 100Hz..800Hz --lasts 20s",
      ),
    )
    .action(async (song: string, coil: string | undefined, options: PlayOptions) =>
      done(await (await import("./commands/play.ts")).play(io, song, coil, options)),
    );

  verb(
    "why",
    "Why this number? Shows formula, inputs, source, sensitivities and handbook checks of a figure, or what a rule stands on.",
  )
    .argument("<file>", "coil file, or -")
    .argument(
      "<id>",
      "of a figure, e.g. secondary.f1 (tune, burst and driver list them), or of a rule, e.g. mistuned (check names them)",
    )
    .option("--quick", "leave out the sensitivities, which take some seconds")
    .option(
      "--capture <record>",
      "a record that the figure comes from, for match.* and capture.*; again for each",
      collected,
    )
    .option("--role <channel=role>", "as for match", collected)
    .option("--transformer <channel=ratio/burden>", "as for match", collected)
    .option("--state <state>", "as for match", collected)
    .option("--bus <voltage>", "as for match", collected)
    .option("--delimiter <sign>", "as for match")
    .option("--decimal <sign>", "as for match")
    .option("--header-lines <count>", "as for match")
    .option("--interval <time>", "as for match")
    .option("--column <column=what>", "as for match", collected)
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright why lantern.yaml secondary.f1",
        "coilwright why lantern.yaml burst.peakTopVoltage --quick",
        "coilwright why lantern.yaml mistuned",
        "coilwright why lantern.yaml match.coupling.k --capture low.csv --bus 60V",
      ),
    )
    .action(async (file: string, id: string, options: WhyOptions) =>
      done(await (await import("./commands/why.ts")).why(io, file, id, options)),
    );

  verb("doubt", "How sure is this? Shows 90 % intervals, and which measurement would shrink them most.")
    .argument("<file>", "coil file, or -")
    .argument("[id]", "of one figure; all of them where left out")
    .option(...json)
    .addHelpText(
      "after",
      examples(
        "coilwright doubt lantern.yaml",
        "coilwright doubt lantern.yaml tuning.ratio",
        "coilwright doubt lantern.yaml burst.peakPrimaryCurrent",
      ),
    )
    .action(async (file: string, id: string | undefined, options: { json?: boolean }) =>
      done(await (await import("./commands/doubt.ts")).doubt(io, file, id, options)),
    );

  verb("open", "Opens the app for a coil file, on this machine only, until Ctrl+C.")
    .argument("<file>", "coil file")
    .option("--port <number>", "port on 127.0.0.1; a free one where left out")
    .option("--no-browser", "only print the address")
    .addHelpText(
      "after",
      examples("coilwright open lantern.yaml", "coilwright open lantern.yaml --port 4127 --no-browser"),
    )
    .action(async (file: string, options: { port?: string; browser: boolean }) =>
      done(await (await import("./commands/open.ts")).open(io, file, options)),
    );

  verb("format", "Sets a coil file in even spacing. Comments and order stay.")
    .argument("<file>", "coil file, or -")
    .addOption(new Option("--check", "only say whether it is").conflicts("write"))
    .addOption(new Option("--write", "write the file instead of printing it").conflicts("check"))
    .addHelpText("after", examples("coilwright format lantern.yaml", "coilwright format lantern.yaml --write"))
    .action(async (file: string, options: { check?: boolean; write?: boolean }) =>
      done(await (await import("./commands/format.ts")).format(io, file, options)),
    );

  verb("migrate", "Brings a file of an older format to today's.")
    .argument("<file>", "coil file, or -")
    .addHelpText("after", examples("coilwright migrate lantern.yaml"))
    .action(async (file: string) => done(await (await import("./commands/migrate.ts")).migrate(io, file)));

  verb("schema", "Prints the JSON Schema of the coil file, for editors.")
    .addHelpText("after", examples("coilwright schema > coil.schema.json"))
    .action(async () => done(await (await import("./commands/schema.ts")).schema(io)));

  verb("completion", "Prints the completion script of a shell.")
    .addArgument(new Argument("<shell>", "the shell").choices(shells))
    .addHelpText("after", examples("source <(coilwright completion bash)"))
    .action((shell: Shell) => {
      io.out(completionScript(shell, program));
      done(exit.clean);
    });

  return program;
}
