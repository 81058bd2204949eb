import { type Command, Option } from 'commander';
import { dataFiles } from './fit-all.js';
import type { Load } from './load-command.js';
import { upTo, whole } from './option-values.js';

/** Where the records behind the shipped models lie. */
const DATA = '../shared/data';

/** What no clinic runs: fitting and proving the models. Long because it is the list of their options, one a line. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the list of the options, one a line
export function studyCommands(program: Command, load: Load): void {
  const fit = program.command('fit').description('estimate references or growth parameters from records');
  fit
    .command('all', { isDefault: true })
    .description('all of the below in order, from a folder of data')
    .option('--data <folder>', 'folder of us-children-1977, berkeley and infants-longitudinal', DATA)
    .action(load('fit-all', 'fitAll'));
  fit
    .command('references')
    .description('fit L, M and S by age and sex to individual records, into reference-data/')
    .requiredOption('--records <file>', 'records of children measured once')
    .option('--out <folder>', 'folder to write into')
    .action(load('fit-models', 'fitReferences'));
  fit
    .command('growth')
    .description('estimate the growth model from children measured many times, into models/')
    .requiredOption('--cohort <paths...>', 'CSV of serial records: id, sex, age and measures')
    .requiredOption('--infants <paths...>', 'CSV of infants followed: id, sex, age, length_cm')
    .requiredOption('--records <file>', 'children measured once, for correlations between measures')
    .option('--name <name>', 'name of the model')
    .option('--out <folder>', 'folder to write into')
    .option('--seed <number>', 'seed', whole)
    .action(load('fit-growth', 'fitGrowth'));
  fit
    .command('notes')
    .description(
      'estimate by which words a free note tells of something to act on, from models/notes/notes.csv',
    )
    .option('--out <folder>', 'folder to write into')
    .action(load('fit-models', 'fitNotes'));
  fit
    .command('cards')
    .description("write the models' cards anew from what their fit measured")
    .option('--out <folder>', 'folder of models')
    .action(load('fit-models', 'fitCards'));
  fit
    .command('baselines')
    .description(
      'mean and SD curves of a cohort and the error of plain methods in it, into models/: what backtest compares with',
    )
    .requiredOption('--cohort <file>', 'CSV: id,sex,age,stature_cm,leg_cm,weight_kg')
    .option('--out <folder>', 'folder to write into')
    .option('--seed <number>', 'seed', whole)
    .action(load('fit-models', 'fitBaselines'));

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
    .option('--history <visits>', 'yearly visits known at each forecast: 1, 2 or 3', whole)
    .option('--model <name>', 'growth model to use')
    .option('--seed <number>', 'seed of the noise', whole)
    .option('--json', 'print the report as JSON')
    .action(load('backtest', 'backtest'));

  program
    .command('simulate-evidence')
    .description(
      'what one more reading and judged visits are worth, on invented children whose growth is known',
    )
    .option('--children <number>', 'how many children', whole, 300)
    .option('--out <file>', 'write the report as JSON')
    .option('--seed <number>', 'seed', whole)
    .action(load('simulate-evidence', 'simulateEvidence'));

  program
    .command('simulate')
    .description('run a caseload over years under review and recall policies: days outgrown, visits, casts')
    .option('--children <number>', 'how many children', whole)
    .option('--years <number>', 'how many years', upTo(8))
    .option('--out <file>', 'write the report as JSON')
    .option('--seed <number>', 'seed', whole)
    .option('--json', 'print the report as JSON')
    .action(load('simulate', 'simulate'));
}
