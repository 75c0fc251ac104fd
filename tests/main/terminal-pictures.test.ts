import { PNG } from 'pngjs';
import { afterEach, expect, it, vi } from 'vitest';
import { inlineIn } from '../../src/main/terminal-pictures.ts';

const picture = PNG.sync.write(new PNG({ width: 1600, height: 2 }));
/** What the terminal is asked by; the package that knows terminals reads the environment itself. */
const ASKED = ['TERM', 'TERM_PROGRAM', 'TERM_PROGRAM_VERSION', 'LC_TERMINAL', 'KITTY_WINDOW_ID', 'KITTY_PID', 'TMUX', 'STY'];
ASKED.push('GHOSTTY_RESOURCES_DIR', 'KONSOLE_VERSION', 'WEZTERM_PANE', 'WEZTERM_UNIX_SOCKET');
afterEach(() => vi.unstubAllEnvs());

function shown(env: Record<string, string>, isTTY = true, columns = 100): string | null {
  for (const name of ASKED) vi.stubEnv(name, env[name]);
  return inlineIn({ isTTY, columns }, process.env)?.(picture) ?? null;
}

it.each([
  [{ KITTY_WINDOW_ID: '1', TERM: 'xterm-kitty' }, '\u001b_G'],
  [{ TERM_PROGRAM: 'ghostty' }, '\u001b_G'],
  [{ TERM_PROGRAM: 'iTerm.app', TERM_PROGRAM_VERSION: '3.5.0' }, '\u001b]1337;'],
  [{ TERM_PROGRAM: 'iTerm.app', TERM_PROGRAM_VERSION: '3.6.1' }, '\u001b]1337;'],
  [{ LC_TERMINAL: 'iTerm2' }, '\u001b]1337;'],
  [{ TERM_PROGRAM: 'vscode', TERM_PROGRAM_VERSION: '1.90.0' }, '\u001b]1337;'],
  [{ TERM_PROGRAM: 'WezTerm', TERM_PROGRAM_VERSION: '20240203-110809' }, '\u001b]1337;'],
])('%j shows pictures', (env, start) => {
  expect(shown(env)?.slice(0, start.length)).toBe(start);
});

it.each([
  [{ TERM: 'xterm-256color' }],
  [{ TERM: 'dumb', KITTY_WINDOW_ID: '1' }],
  [{ TERM: 'tmux-256color', KITTY_WINDOW_ID: '1' }],
  [{ TERM: 'screen', LC_TERMINAL: 'iTerm2' }],
  [{ TERM: 'xterm-kitty', TMUX: '/tmp/tmux-0/default,1,0' }],
  [{ TERM_PROGRAM: 'Apple_Terminal' }],
])('%j shows none', (env) => {
  expect(shown(env)).toBeNull();
});

it('no pipe shows any, and colours have nothing to do with it', () => {
  expect(shown({ KITTY_WINDOW_ID: '1' }, false)).toBeNull();
  expect(shown({ KITTY_WINDOW_ID: '1', NO_COLOR: '1' })).not.toBeNull();
});

it('they are as wide as the terminal, or as most are where it does not say', () => {
  expect(shown({ KITTY_WINDOW_ID: '1' })).toContain(',c=100,');
  expect(shown({ KITTY_WINDOW_ID: '1' }, true, 0)).toContain(',c=80,');
});
