import { describe, expect, it } from 'vitest';
import { surfaceOf } from '../../../src/trade/compatibility/surface.ts';

// What surfaces carry is common practice of the trade, no source.
describe('what a surface carries', () => {
  it.each<[string, string[]]>([
    ['sulphur clay', ['sulphur']],
    ['sulfur clay', ['sulphur']],
    ['Oil-based clay', ['sulphur']],
    ['modeling clay', ['sulphur']],
    ['wax clay', ['sulphur']],
    ['sulfur cley', ['sulphur']],
    ['clay without sulphur', []],
    ['clay, sulphur-free', []],
    ['water clay without sulphur', ['moisture']],
    ['latex gloves', ['latex', 'amines']],
    ['nitrile gloves', []],
    ['polystyrene foam', []],
    ['sulphur-free clay', []],
    ['oil clay, sulfur free', []],
    ['oil clay, no sulphur', []],
    ['clay', ['sulphur', 'moisture']],
    ['water clay', ['moisture']],
    ['water-based clay', ['moisture']],
    ['latex', ['latex', 'amines']],
    ['epoxy', ['amines']],
    ['condensation silicone', ['tin']],
    ['condensaton silicone', ['tin']],
    ['tin silicone', ['tin']],
    ['platinum silicone', []],
    ['addition silicone', []],
    ['3D print', ['uncured acrylate']],
    ['3d-printed in resin', ['uncured acrylate']],
    ['3D print, PLA', []],
    ['filament print', []],
    ['plaster', ['moisture']],
    ['plsater', ['moisture']],
    ['plater', ['moisture']],
    ['wood', ['moisture']],
    ['wood, shellac', []],
    ['sulphur clay with shellac', ['sulphur']],
    ['unsealed wood', ['moisture']],
    ['wood, not sealed', ['moisture']],
    ['wax', []],
    ['bronze', []],
    ['fibreglass', ['styrene']],
    ['plastic', []],
  ])('%s: %j', (typed, leaves) => expect([...surfaceOf(typed).leaves].sort()).toEqual([...leaves].sort()));
});

describe('what a surface is', () => {
  it.each([
    ['plaster', { known: true, porous: true, sealed: false, released: false, family: 'gypsum' }],
    ['wood, shellac', { known: true, porous: true, sealed: true, released: false, family: null }],
    ['papier mâché', { known: true, porous: true }],
    ['wood, shellac and released', { known: true, sealed: true, released: true }],
    ['wood, unsealed', { known: true, porous: true, sealed: false }],
    ['glass', { known: true, glassy: true, porous: false }],
    ['silicone', { known: true, family: 'silicone-tin' }],
    ['platinum silicone', { known: true, family: 'silicone-platinum' }],
    ['sugar paste', { known: false, porous: false }],
    ['sealed', { known: false, sealed: true }],
    ['', { known: false }],
    ['!!!', { known: false }],
  ])('%s', (typed, known) => expect(surfaceOf(typed)).toMatchObject(known));

  // Softening temperatures are from memory.
  it.each([
    ['wax', { standsCelsius: 50 }],
    ['filament print', { standsCelsius: 55 }],
    ['bronze', { standsCelsius: null }],
    ['styro foam', { dissolvedBy: 'styrene' }],
    ['wax, primed', { dissolvedBy: null }],
    ['latex gloves', { gloves: true }],
    ['latex', { gloves: false }],
    ['3D pint', { known: false, meant: '3d print' }],
    ['sugar paste', { known: false, meant: null }],
    ['3D print', { known: true, meant: null }],
  ])('%s, in detail', (typed, wanted) => expect(surfaceOf(typed)).toMatchObject(wanted));

  it('keeps the words as they were typed', () => expect(surfaceOf('  Wood, Shellac ').typed).toBe('Wood, Shellac'));
});

describe('a slip of the finger', () => {
  it.each([
    ['latax', true],
    ['latx', false],
    ['koncrete', true],
    // Two slips are forgiven from nine letters on.
    ['konkrete', false],
    ['poliestar', true],
    ['poliastar', false],
  ])('in %j is read: %j', (typed, known) => expect(surfaceOf(typed).known).toBe(known));

  it('in a word of nine letters is read as that word', () => {
    expect(surfaceOf('poliestar').family).toBe('polyester');
    expect(surfaceOf('koncrete')).toMatchObject({ porous: true, leaves: ['moisture'] });
  });
});
