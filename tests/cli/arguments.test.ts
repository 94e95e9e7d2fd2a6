import { describe, expect, test } from 'vitest';
import { help, parseArguments } from '../../src/cli/arguments.ts';

const wrong = (...words: string[]) => {
  const parsed = parseArguments(words);
  return 'wrong' in parsed ? parsed.wrong : undefined;
};
const request = (...words: string[]) => {
  const parsed = parseArguments(words);
  return 'request' in parsed ? parsed.request : undefined;
};

describe('a request', () => {
  test('has the folders of a fresh project where none are named', () => {
    expect(request('check')).toEqual({ command: 'check', content: 'content', format: 'text' });
    expect(request('build')).toEqual({ command: 'build', content: 'content', out: 'dist', format: 'text' });
    expect(request('preview')).toEqual({ command: 'preview', content: 'content', port: 4321 });
    expect(request('schemas')).toEqual({ command: 'schemas', out: 'schemas' });
  });

  test('takes its options in any order, with or without an equals sign', () => {
    const expected = { command: 'build', content: 'a', out: 'b', format: 'json' };
    expect(request('build', '--content', 'a', '--out=b', '--format', 'json')).toEqual(expected);
    expect(request('--format=json', '--out', 'b', 'build', '--content=a')).toEqual(expected);
  });

  test('for help wins over everything else', () => {
    for (const words of [['--help'], ['-h'], ['help'], ['build', '--help'], ['help', 'build']]) {
      expect(request(...words)).toEqual({ command: 'help' });
    }
  });

  test('may ask for the stack of a fault', () => {
    expect(parseArguments(['check', '--debug'])).toMatchObject({ debug: true });
    expect(parseArguments(['check'])).toMatchObject({ debug: false });
  });
});

describe('wrong usage is said in one sentence', () => {
  test.each([
    [[], 'A command is missing.'],
    [['bild'], 'There is no command "bild".'],
    [['toString'], 'There is no command "toString".'],
    [['check', '--contents', 'a'], "Unknown option '--contents'."],
    [['check', '--content'], "Option '--content <value>' argument missing."],
    [['check', '--content='], '--content is empty.'],
    [['check', '--out', 'a'], '"check" takes no --out.'],
    [['check', 'panels'], '"check" takes no "panels".'],
    [['check', '--format', 'xml'], '--format is text or json, not "xml".'],
    [['preview', '--port', '80a'], '--port is a number from 0 to 65535, not "80a".'],
    [['preview', '--port', '65536'], '--port is a number from 0 to 65535, not "65536".'],
    [['explain'], 'explain needs a code, as SL401, with which a report begins.'],
    [['explain', 'SL401', 'SL402'], '"explain" takes no "SL402".'],
  ])('%j', (words, sentence) => {
    expect(wrong(...words)).toBe(sentence);
  });
});

test('the help names every command and option that there is', () => {
  for (const word of [
    'check',
    'build',
    'preview',
    'explain',
    'schemas',
    '--content',
    '--out',
    '--format',
    '--port',
    '--debug',
  ]) {
    expect(help).toContain(word);
  }
});
