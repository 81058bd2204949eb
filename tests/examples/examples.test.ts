import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { run } from '../commands/run.js';

const guide = fileURLToPath(new URL('../../README.md', import.meta.url));
const page = fileURLToPath(new URL('README.md', import.meta.url));

// After a change that is meant, `npx vitest run tests/examples -u` writes the answers anew: read them before committing.
test('every command on the page answers what stands there', async () => {
  const blocks = /```console\n\$ npx doorpost (.*)\n[\s\S]*?```/g;
  const text = readFileSync(page, 'utf8');
  const commands = [...text.matchAll(blocks)].map(([, command]) => command);
  expect(commands.length).toBeGreaterThan(2);
  const answers = new Map<string, string>();
  for (const command of commands) {
    const words = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain);
    const { status, stdout } = await run(...words);
    expect(status, command).toBe(0);
    answers.set(command, stdout.trimEnd());
  }
  const answered = text.replace(
    blocks,
    (_, command) => `\`\`\`console\n$ npx doorpost ${command}\n${answers.get(command)}\n\`\`\``,
  );
  const [, quoted] = /begins\n\n((?: {4}.*\n)+)\nWhere a list/.exec(readFileSync(guide, 'utf8')) ?? [];
  expect(answered).toContain(quoted.replace(/^ {4}/gm, ''));
  await expect(answered).toMatchFileSnapshot(page);
});
