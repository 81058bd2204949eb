import { Argument, type Command, Option } from 'commander';
import { dataFiles, fitParts } from './fit-all.js';
import type { Load } from './load-command.js';
import { upTo, whole } from './option-values.js';

/** Where the records behind the shipped models lie. */
const DATA = '../shared/data';

/** What no clinic runs: fitting and proving the models. */
export function studyCommands(program: Command, load: Load): void {
  program
    .command('fit')
    .description(
      'estimate references, growth parameters and the weights of notes anew from records, in order',
    )
    .addArgument(new Argument('[part]', 'this one alone; cards: their words anew').choices(fitParts))
    .option('--data <folder>', 'folder of us-children-1977, berkeley and infants-longitudinal', DATA)
    .action(load('fit-all', 'fitAll'));

  program
    .command('backtest')
    .description('forecast from the past of recorded children and compare with what happened')
    .option(
      '--children <file>',
      'CSV of serial records: id,sex,age,stature_cm,leg_cm,weight_kg',
      `${DATA}/${dataFiles.cohort}`,
    )
    .option('--out <file>', 'write the report as JSON')
    .addOption(
      new Option('--noise <kind>', 'add seeded measurement error')
        .choices(['none', 'clinic'])
        .default('none'),
    )
    .action(load('backtest', 'backtest'));

  program
    .command('simulate')
    .description('run a caseload over years under review and recall policies: days outgrown, visits, casts')
    .option('--children <number>', 'how many children', whole)
    .option('--years <number>', 'how many years', upTo(8))
    .option('--out <file>', 'write the report as JSON')
    .option('--seed <number>', 'seed', whole)
    .option('--worlds <number>', 'how many invented clinics, of the seeds from there on', upTo(10))
    .option('--json', 'print the report as JSON')
    .action(load('simulate', 'simulate'));
}
