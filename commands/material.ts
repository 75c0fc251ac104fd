import { materialCard, materialLine } from '../src/cards/material-card.ts';
import { card } from '../src/chat/card.ts';
import { choice, text } from '../src/chat/options.ts';
import { group, part } from '../src/desk/desk.ts';
import { material as materialNamed } from '../src/desk/resolve.ts';
import { USES } from '../src/trade/material.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

export default group({
  name: 'material',
  summary: 'The materials that this studio knows',
  commands: {
    list: part({
      summary: 'All materials, or those for one use',
      options: { use: choice(USES, { about: 'Only those for this use' }).optional() },
      examples: ['use:skin'],
      run: async ({ use }, desk) => {
        const materials = desk.materials.filter((material) => use === undefined || material.use.includes(use));
        return card(
          say`${plain(materials.length === 1 ? '1 material' : `${materials.length} materials`)}${use === undefined ? say`` : say` for the ${plain(use)}`}`,
          materials.map(materialLine),
          {
            data: {
              materials: materials.map(({ id, name, family, use: uses, potLifeMinutes }) => ({
                id,
                name,
                family,
                use: uses,
                potLifeMinutes,
              })),
            },
          },
        );
      },
    }),
    show: part({
      summary: 'Ratio, times, limits, cautions and source of one material',
      options: { material: text({ about: 'Which', complete: 'material' }) },
      examples: ['material:brush-urethane'],
      run: async (input, desk) => {
        const material = materialNamed(desk, input.material);
        return isRefusal(material) ? material : materialCard(material, desk.studio);
      },
    }),
  },
});
