/**
 * The command line. Each command's room is loaded only when it is called, so that help is quick and one room's
 * trouble does not stop the others. What each option means stands in `doorpost <command> --help`.
 */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { DoorpostError } from '../errors.js';
import { isIsoDate } from '../records/dates.js';
import { defaultSettings } from '../store/people/default-settings.js';
import { exitCodes, exitCodesText } from './exit-codes.js';
import { terminal } from './terminal.js';

type Action = (...given: never[]) => Promise<unknown>;

/** Runs `exportName` of ./<file>.ts; a number it returns is the exit code, else it is 0. */
const load =
  (file: string, exportName: string) =>
  async (...given: unknown[]): Promise<void> => {
    const module = (await import(`./${file}.ts`)) as Record<string, Action>;
    const args = given.slice(0, -1); // the last one is the Command itself
    const code: unknown = await module[exportName](...(args as never[]));
    process.exitCode = typeof code === 'number' ? code : exitCodes.done;
  };

const isoDate = (text: string): string => {
  if (isIsoDate(text)) return text;
  throw new InvalidArgumentError('A calendar date as YYYY-MM-DD is accepted.');
};
const month = (text: string): string => {
  if (isIsoDate(`${text}-01`)) return text;
  throw new InvalidArgumentError('A month as YYYY-MM is accepted.');
};
const whole = (text: string): number => {
  if (/^\d+$/.test(text)) return Number(text);
  throw new InvalidArgumentError('A whole number is accepted.');
};
const slots = (text: string): number => {
  const number = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (number >= 1 && number <= 1000) return number;
  throw new InvalidArgumentError('A whole number from 1 to 1000 is accepted.');
};
const probability = (text: string): number => {
  if (Number(text) > 0 && Number(text) < 1) return Number(text);
  throw new InvalidArgumentError('A number between 0 and 1 is accepted, such as 0.1.');
};

const PATHS = 'a folder of tables, or files: .csv, .txt, .xlsx, FHIR .json or .ndjson';

const program = new Command('doorpost')
  .description(
    'When will each child outgrow each orthosis? Growth, fit and recall planning for an orthotics clinic.\n' +
      'A forecast is an estimate from measurements, never a diagnosis and never a reason to skip a review.',
  )
  .version('0.1.0')
  .showHelpAfterError('(doorpost --help lists the commands)')
  .addHelpText('after', `\n${exitCodesText}`)
  .exitOverride();

/** Options of every command that reads a caseload. */
const reading = (command: Command): Command =>
  command
    .option('--today <date>', 'the date to stand on, YYYY-MM-DD (default: today)', isoDate)
    .addOption(new Option('--date-format <order>', 'how 03/04/2024 is read').choices(['dmy', 'mdy']))
    .addOption(
      new Option('--unit <unit>', 'unit of lengths where no cell, column or heading says one').choices([
        'mm',
        'cm',
        'inch',
      ]),
    )
    .option('--rules <file>', "the clinic's own fit rules as JSON, over the shipped ones")
    .option('--json', 'print the result as JSON');

reading(program.command('import'))
  .description('read tables, say what is taken and what is refused and why; nothing is changed without --out')
  .argument('<paths...>', PATHS)
  .option('--out <folder>', 'write what was taken as clean tables into this folder')
  .option('--against <folder>', 'say what differs from the tables in this folder')
  .addHelpText('after', '\n`doorpost columns` lists every column of every table.')
  .action(load('import-files', 'importFiles'));

program
  .command('columns')
  .description('list the columns of every table that can be read')
  .option('--json', 'print the result as JSON')
  .action(load('list-columns', 'listColumns'));

reading(program.command('export'))
  .description('write a caseload, or its recall plan, in an open format')
  .argument('<paths...>', PATHS)
  .requiredOption('--out <path>', 'file to write; for csv a folder')
  .addOption(
    new Option('--as <format>', 'what to write')
      .choices(['csv', 'fhir', 'ndjson', 'icalendar'])
      .makeOptionMandatory(),
  )
  .option('--month <month>', 'month of the recall plan, YYYY-MM (default: this month)', month)
  .action(load('export-files', 'exportFiles'));

reading(program.command('forecast'))
  .description('forecast when each device is outgrown, by what, and the latest safe cast date')
  .argument('<paths...>', PATHS)
  .option('--child <id>', 'only this child')
  .option('--model <name>', 'growth model to use (default: the newest in models/)')
  .option(
    '--tolerance <chance>',
    'accepted chance of being outgrown before the replacement is fitted',
    probability,
  )
  .option('--seed <number>', 'seed of the simulated futures', whole)
  .action(load('forecast-caseload', 'forecastCaseload'));

reading(program.command('recall'))
  .description('make the recall list of a month: whom to call, for what, by when and why')
  .argument('<paths...>', PATHS)
  .option('--month <month>', 'month to plan, YYYY-MM (default: the month of today)', month)
  .option(
    '--tolerance <chance>',
    'accepted chance of being outgrown before the replacement is fitted',
    probability,
  )
  .option(
    '--slots-per-week <number>',
    'casting slots the clinic has in a week',
    slots,
    defaultSettings.castingSlotsPerWeek,
  )
  .option('--out <file>', 'also write the list as a CSV table')
  .option('--seed <number>', 'seed of the simulated futures', whole)
  .action(load('recall-list', 'recallList'));

reading(program.command('chart'))
  .description("draw a child's growth charts and device timeline as SVG, PNG and Vega-Lite specification")
  .argument('<paths...>', PATHS)
  .requiredOption('--child <id>', 'the child to draw')
  .requiredOption('--out <folder>', 'folder to write into')
  .option('--seed <number>', 'seed of the simulated futures', whole)
  .action(load('chart-child', 'chartChild'));

program
  .command('demo')
  .description('make an invented clinic and take it from its tables to forecasts, recall list and charts')
  .option('--out <folder>', 'folder to write into', 'demo-clinic')
  .option('--children <number>', 'how many children', whole, 240)
  .option('--seed <number>', 'seed of the invented clinic', whole, 20240317)
  .option('--today <date>', 'the date to stand on, YYYY-MM-DD (default: today)', isoDate)
  .option('--charts <number>', 'for how many children to draw charts', whole, 3)
  .option('--tables-only', 'write the tables and stop')
  .option('--json', 'print the result as JSON')
  .action(load('demo', 'demo'));

program
  .command('check-reference')
  .description('compare records of children with the growth references: share below each centile')
  .requiredOption('--children <file>', 'CSV, one line a child: sex, age and measures')
  .requiredOption('--out <file>', 'write the report as JSON')
  .action(load('check-reference', 'checkReference'));

const fit = program.command('fit').description('estimate references or growth parameters from records');
fit
  .command('references')
  .description('fit L, M and S by age and sex to individual records, into reference-data/')
  .requiredOption('--records <path>', 'folder or file of records')
  .option('--out <folder>', 'folder to write into')
  .action(load('fit-references', 'fitReferences'));
fit
  .command('velocities')
  .description(
    "draw how fast the references' medians grow, by measure and sex, into reference-data/velocities.svg",
  )
  .option('--out <folder>', 'folder to write into')
  .action(load('fit-velocities', 'fitVelocities'));
fit
  .command('growth')
  .description('estimate the growth model from children measured many times, into models/')
  .requiredOption('--cohort <paths...>', 'CSV of serial records: id, sex, age and measures')
  .option('--infants <paths...>', 'CSV of infants followed: id, sex, age, length_cm')
  .option('--records <path>', 'folder or file of children measured once, for correlations between measures')
  .option('--name <name>', 'name of the model')
  .option('--out <folder>', 'folder to write into')
  .option('--seed <number>', 'seed', whole)
  .action(load('fit-growth', 'fitGrowth'));
fit
  .command('baselines')
  .description(
    'mean and SD curves of a cohort and the error of plain methods in it, into models/: what backtest compares with',
  )
  .requiredOption('--cohort <file>', 'CSV: id,sex,age,stature_cm,leg_cm,weight_kg')
  .requiredOption('--infants <file>', 'CSV: id,sex,age_years,length_cm')
  .option('--name <name>', 'name of the curves (default: baselines)')
  .option('--out <folder>', 'folder to write into')
  .option('--seed <number>', 'seed', whole)
  .action(load('fit-baselines', 'fitBaselines'));

program
  .command('backtest')
  .description('forecast from the past of recorded children and compare with what happened')
  .requiredOption(
    '--children <file>',
    'CSV of serial records: id,sex,age,stature_cm,leg_cm,weight_kg, or for infants id,sex,age_years,length_cm',
  )
  .option('--out <file>', 'write the report as JSON')
  .addOption(
    new Option('--noise <kind>', 'add seeded measurement error').choices(['none', 'clinic']).default('none'),
  )
  .option('--history <visits>', 'yearly visits known at each forecast: 1, 2 or 3', whole)
  .option('--model <name>', 'growth model to use')
  .addOption(new Option('--columns <kind>', 'columns of the file').choices(['children', 'infants']))
  .option('--baselines <name>', 'curves the plain methods stand on (default: baselines)')
  .option('--no-policies', 'leave out the recall policies, which take most of the time')
  .option(
    '--simulated <number>',
    'children drawn from the model itself, to test its bands (default: 60)',
    whole,
  )
  .option('--charts <folder>', 'draw the calibration page into this folder')
  .option('--seed <number>', 'seed of the noise', whole)
  .option('--json', 'print the report as JSON')
  .action(load('backtest', 'backtest'));

program
  .command('simulate')
  .description('run a caseload over years under review and recall policies: days outgrown, visits, casts')
  .option('--curves <file>', 'true growth curves as CSV (default: the invented clinic)')
  .option('--children <number>', 'how many children', whole)
  .option('--years <number>', 'how many years', whole, 5)
  .option(
    '--slots-per-week <number>',
    "the clinic's visits (default: somewhat above what the children need)",
    whole,
  )
  .option(
    '--jobs-per-week <number>',
    "the workshop's jobs (default: somewhat above what the children need)",
    whole,
  )
  .option('--out <path>', 'write the report into this file or folder')
  .option('--seed <number>', 'seed', whole)
  .option('--json', 'print the report as JSON')
  .action(load('simulate', 'simulate'));

program
  .command('serve')
  .description('run the service; settings come from the environment (see README)')
  .action(load('serve', 'serve'));
program
  .command('worker')
  .description('run one more worker for the service of the same DATABASE_URL')
  .action(load('worker', 'worker'));
program
  .command('backup')
  .description('write the whole database of the service into one file')
  .requiredOption('--out <file>', 'file to write')
  .action(load('backup', 'backup'));
program
  .command('restore')
  .description('load a backup into an empty database')
  .requiredOption('--from <file>', 'file to read')
  .action(load('restore', 'restore'));
program
  .command('user')
  .description('accounts of the service')
  .command('add')
  .description('add an account; the password is read from standard input')
  .requiredOption('--name <name>', 'sign-in name')
  .requiredOption('--role <role>', 'clinician, scheduler, administrator or auditor')
  .action(load('user', 'addUser'));

try {
  await program.parseAsync();
} catch (error) {
  process.exitCode = exitCodeOf(error);
}
// The work is over. What a failure or a stop left open must not keep the process, and with it its port or its terminal.
setTimeout(() => process.exit(), 500).unref();

function exitCodeOf(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  if (error instanceof DoorpostError) {
    const { accepted } = error.place;
    terminal.err(`doorpost: ${error.message}${accepted ? `\nAccepted: ${accepted}.` : ''}`);
    return error.status < 500 ? exitCodes.usage : exitCodes.failed;
  }
  const { code, message } = error as NodeJS.ErrnoException;
  terminal.err(`doorpost: ${message}`);
  if (process.env.DOORPOST_DEBUG) console.error(error);
  return code === 'ENOENT' || code === 'EACCES' || code === 'EISDIR' ? exitCodes.usage : exitCodes.failed;
}
