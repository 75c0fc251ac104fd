import { helpFor } from '../src/chat/help.ts';
import { text } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';

export default command({
  name: 'help',
  summary: 'What can be asked for, and how',
  options: { topic: text({ about: 'A command: mix, job start', complete: 'command' }).optional() },
  examples: ['topic:mix'],
  run: async (input, desk) => helpFor(desk.commands, input.topic),
});
