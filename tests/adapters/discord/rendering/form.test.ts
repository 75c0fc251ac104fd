import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modalOf, valuesOf } from '../../../../src/adapters/discord/rendering/form.ts';
import { pressId } from '../../../../src/adapters/discord/rendering/press.ts';
import type { Form } from '../../../../src/chat/declaration.ts';
import { hostile } from './hostile.ts';
import { fault } from './spec.ts';

const form: Form = {
  title: 'What was poured',
  fields: [
    { option: 'poured', label: 'Part A', example: '171 g', suffix: 'A' },
    { option: 'poured', label: 'Part B', example: '190 g', suffix: 'B' },
    { option: 'note', label: 'Anything to add', example: 'thick', long: true },
  ],
};
const id = pressId({ command: 'fix', options: { material: 'brush-urethane' }, asks: true }, '12345678') ?? '';

/** What the platform sends back when somebody fills a form. */
const filled = (shown: Form, values: readonly string[]) =>
  modalOf(shown, id).components.flatMap((each, index) => {
    const input = 'component' in each ? each.component : undefined;
    return input && 'custom_id' in input ? [{ customId: input.custom_id, value: values[index] ?? '' }] : [];
  });

describe('a form', () => {
  it('is shown as a label and an input for each field', () => {
    const modal = modalOf(form, id);
    expect(fault('callback', { type: 9, data: modal })).toBeUndefined();
    expect(modal).toMatchObject({
      custom_id: id,
      title: 'What was poured',
      components: [
        { type: 18, label: 'Part A', component: { type: 4, style: 1, placeholder: '171 g', max_length: 200, required: true } },
        { type: 18, label: 'Part B', component: { type: 4, style: 1, placeholder: '190 g' } },
        { type: 18, label: 'Anything to add', component: { type: 4, style: 2, max_length: 1000 } },
      ],
    });
  });

  it('gives the options, fields of one option joined, each with what is said after it', () => {
    expect(valuesOf(filled(form, ['171 g', ' 190,5 g ', 'two\nlines']))).toEqual({
      poured: '171 g A, 190,5 g B',
      note: 'two\nlines',
    });
  });

  it('is read in the order of its fields, whatever order they come back in', () => {
    expect(valuesOf(filled(form, ['171 g', '190 g']).reverse())).toEqual({ poured: '171 g A, 190 g B' });
  });

  it('leaves out what is empty and what is none of its fields', () => {
    expect(valuesOf([...filled(form, ['', '190 g', '  ']), { customId: 'other', value: 'x' }])).toEqual({ poured: '190 g B' });
  });

  it('says so when a suffix is too long to be carried', () => {
    const fields = [{ option: 'poured', label: 'A', example: '1 g', suffix: 'x'.repeat(100) }];
    expect(() => modalOf({ title: 'Long', fields }, id)).toThrow(RangeError);
  });

  it('keeps within the limits and carries everything, whatever it says', () => {
    const words = fc.oneof(hostile, fc.string({ minLength: 40, maxLength: 300, unit: 'grapheme' }));
    const short = fc.string({ unit: 'binary', maxLength: 3 });
    const field = fc.record({
      option: fc.constantFrom('poured', 'a;b', 'é=', '~'),
      label: words,
      example: words,
      suffix: short,
      long: fc.boolean(),
    });
    fc.assert(
      fc.property(words, fc.array(field, { minLength: 1, maxLength: 5 }), (title, fields) => {
        const shown = { title, fields };
        const modal = modalOf(shown, id);
        expect(fault('callback', { type: 9, data: modal })).toBeUndefined();
        const values = valuesOf(
          filled(
            shown,
            fields.map((_, index) => `${index} g`),
          ),
        );
        for (const option of new Set(fields.map((each) => each.option)))
          expect(values[option]).toBe(
            fields
              .flatMap((each, index) => (each.option === option ? [`${index} g ${each.suffix.trim()}`.trim()] : []))
              .join(', '),
          );
      }),
    );
  });
});
