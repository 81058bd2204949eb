import { type Command, Option } from 'commander';
import { defaultSettings } from '../store/people/default-settings.js';
import type { Load } from './load-command.js';
import { isoDate, month, probability, upTo, whole } from './option-values.js';

const PATHS = 'a list of any shape, or a folder: .csv, .txt, .xlsx, FHIR .json or .ndjson';

const TOLERANCE = [
  '--tolerance <chance>',
  'accepted chance of being beyond use before the next device is fitted, ordinary skin (default 0.33)',
  probability,
] as const;

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
    .option('--reading <file>', "the clinic's answers to questions about its sheets: used, and kept there")
    .option('--yes', 'take what is probable without asking')
    .option('--json', 'print the result as JSON');

/** What works on files of a caseload. */
export function caseloadCommands(program: Command, load: Load): void {
  reading(program.command('import'))
    .description(
      'read tables, say what is taken and what is refused and why; nothing is changed without --out',
    )
    .argument('<paths...>', PATHS)
    .option('--out <folder>', 'write what was taken as clean tables into this folder')
    .addHelpText('after', '\n`doorpost columns` lists every column of every table.')
    .action(load('import-files', 'importFiles'));

  program
    .command('columns')
    .description('list the columns of every table that can be read')
    .option('--json', 'print the result as JSON')
    .action(load('list-columns', 'listColumns'));

  reading(program.command('forecast'))
    .description('forecast when each device is outgrown, by what, and what is wanted by when')
    .argument('<paths...>', PATHS)
    .option('--child <id>', 'only this child, by id or full name')
    .option(...TOLERANCE)
    .action(load('forecast-caseload', 'forecastCaseload'));

  reading(program.command('recall'))
    .description(
      'make the recall list: whom to call in the next five weeks or a month, for what, by when and why',
    )
    .argument('<paths...>', PATHS)
    .option(
      '--month <month>',
      'look ahead to the end of this month, YYYY-MM (default: today and the next five weeks)',
      month,
    )
    .option(...TOLERANCE)
    .option(
      '--slots-per-week <number>',
      'casting slots the clinic has in a week',
      upTo(1000),
      defaultSettings.castingSlotsPerWeek,
    )
    .option('--out <file>', 'also write the list as a CSV table')
    .action(load('recall-list', 'recallList'));

  reading(program.command('chart'))
    .description("draw a child's growth charts and device timeline as SVG, PNG and Vega-Lite specification")
    .argument('<paths...>', PATHS)
    .requiredOption('--child <id>', 'the child to draw, by id or full name')
    .requiredOption('--out <folder>', 'folder to write into')
    .action(load('draw-child', 'chartChild'));

  program
    .command('demo')
    .description('make an invented clinic and take it from its tables to forecasts, recall list and charts')
    .option('--out <folder>', 'folder to write into', 'demo-clinic')
    .option('--children <number>', 'how many children', whole, 240)
    .option('--seed <number>', 'seed of the invented clinic', whole, 20240317)
    .option('--today <date>', 'the date to stand on, YYYY-MM-DD (default: today)', isoDate)
    .option('--charts <number>', 'for how many children to draw charts', whole, 3)
    .option('--json', 'print the result as JSON')
    .action(load('demo', 'demo'));
}
