import { describe, expect, it } from 'vitest';
import { surfaceOf } from '../../../src/trade/compatibility/surface.ts';

// That these are no surfaces for moulding materials is common practice, no source.
describe('a living body', () => {
  it.each([
    'my arm',
    'hand',
    'Hands',
    'face',
    'my face, petroleum jelly',
    'skin of a hand',
    'human skin',
    'baby foot',
    'body',
    'finger',
    'leg',
    'pet',
    'dog',
    'the client’s belly',
    'life cast',
    'my arm in plaster',
    'plaster on my hand',
    'arm covered in plaster',
    'hand in a latex glove',
    'my hand, wax',
    'hand, waxed',
    'person',
  ])('%s', (typed) => expect(surfaceOf(typed).living).toBe(true));

  it.each([
    'a hand of wood',
    'wooden hand',
    'wax face',
    'plaster foot',
    'plaster cast of a hand',
    '3D print of my face',
    'hand carved oak',
    'hand made of bronze',
    'foot cast in bronze',
    'face: clay',
    'body filler',
    'bronze dog',
    'head of a doll',
    'mannequin hand',
    'handmade paper',
    'wax',
    'sulphur clay',
    'latex gloves',
    'sugar paste',
    '',
  ])('is not: %s', (typed) => expect(surfaceOf(typed).living).toBe(false));
});
