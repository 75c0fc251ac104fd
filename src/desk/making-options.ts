import { text, typed } from '../chat/options.ts';
import { parseLength } from '../trade/measures/quantity.ts';
import { coverOptions } from './covering.ts';
import { inLine, kept, line, type Typed } from './examples.ts';
import { sizeOptions } from './sizing.ts';

/** The options that say what is made, of what, and how big, for the command of that path; `others`: what its examples need beside them. */
export function makingOptions(command: string, others: Typed) {
  const thick = (name: string) => kept(inLine(parseLength, (example) => line(command, { ...others, [name]: example })));
  return {
    recipe: text({ about: 'The steps that it follows; left out, the first that fits', complete: 'recipe' }).optional(),
    detail: text({ about: 'The material of the thin detail coats', complete: 'material' }).optional(),
    skin: text({ about: 'The material of the skin', complete: 'material' }).optional(),
    shell: text({ about: 'The material of the shell', complete: 'material' }).optional(),
    ...sizeOptions(command, others, { withRest: true }),
    ...coverOptions(command, { ...others, area: '0.4 m2' }),
    thickness: typed(thick('thickness'), { about: 'How thick the whole skin is to be: 3 mm', withRest: true }).optional(),
    backing: typed(thick('backing'), { about: 'How thick the shell is to be: 10 mm; left out, by the size' }).optional(),
    casting: text({ about: 'The material of the first casting', complete: 'material' }).optional(),
    surface: text({
      about: 'What the model is of: wax, plaster, sulphur clay, 3D print, wood with shellac',
      free: true,
    }).optional(),
  };
}
