import type { Family } from '../material.ts';

/** What words say of a surface. */
export interface Kind {
  readonly words: readonly string[];
  readonly leaves?: readonly string[];
  readonly porous?: true;
  readonly sealed?: true;
  readonly released?: true;
  readonly glassy?: true;
  /** Worn by hands, and not what anything is laid on. */
  readonly gloves?: true;
  /** What dissolves it. */
  readonly dissolvedBy?: 'styrene';
  /** From here on it softens or melts. From memory. */
  readonly softensCelsius?: number;
  readonly family?: Family;
  /** What another word with it would let one fear, and it is not so. */
  readonly without?: string;
}

/** What surfaces carry and do. Common practice, no source. Of kinds that overlap the one with the longer word counts. */
export const KINDS: readonly Kind[] = [
  {
    words: ['sulphur', 'sulphur clay', 'oil clay', 'oil-based clay', 'modelling clay', 'modeling clay', 'wax clay'],
    leaves: ['sulphur'],
  },
  {
    words: ['sulphur-free', 'sulphur-free clay', 'sulphur-free oil clay', 'no sulphur', 'non-sulphur'],
    without: 'sulphur',
  },
  { words: ['clay'], leaves: ['sulphur', 'moisture'], porous: true },
  { words: ['water clay', 'water-based clay', 'wet clay', 'earthenware', 'terracotta'], leaves: ['moisture'], porous: true },
  { words: ['polymer clay'] },
  { words: ['plaster', 'gypsum', 'alginate'], leaves: ['moisture'], porous: true, family: 'gypsum' },
  { words: ['concrete', 'cement', 'mortar'], leaves: ['moisture'], porous: true },
  { words: ['stone', 'marble', 'sandstone', 'soapstone', 'granite', 'alabaster', 'brick', 'bisque'], porous: true },
  {
    words: [
      ...['wood', 'wooden', 'timber', 'oak', 'pine', 'balsa', 'walnut', 'beech', 'plywood', 'mdf', 'chipboard', 'cork'],
      ...['cardboard', 'paper', 'leather', 'fabric', 'cloth'],
    ],
    leaves: ['moisture'],
    porous: true,
  },
  { words: ['latex', 'latex rubber', 'natural rubber'], leaves: ['latex', 'amines'] },
  { words: ['latex glove', 'latex gloves', 'rubber glove', 'rubber gloves'], leaves: ['latex', 'amines'], gloves: true },
  { words: ['glove', 'gloves', 'nitrile glove', 'nitrile gloves', 'vinyl glove', 'vinyl gloves'], gloves: true },
  { words: ['epoxy', 'epoxy resin', 'epoxy putty'], leaves: ['amines'], family: 'epoxy' },
  { words: ['condensation silicone', 'tin silicone', 'silicone', 'silicone rubber'], leaves: ['tin'], family: 'silicone-tin' },
  { words: ['platinum silicone', 'addition silicone'], family: 'silicone-platinum' },
  { words: ['urethane', 'polyurethane', 'urethane rubber'], leaves: ['amines'], family: 'urethane' },
  { words: ['polyester', 'fibreglass', 'fiberglass', 'body filler', 'gelcoat'], leaves: ['styrene'], family: 'polyester' },
  {
    words: [
      '3d print',
      '3d printed',
      'printed',
      'print',
      'resin print',
      'printed resin',
      'uv resin',
      'sla',
      'sla print',
      'uv-cured',
    ],
    leaves: ['uncured acrylate'],
  },
  { words: ['filament print', 'filament', 'pla'], without: 'uncured acrylate', softensCelsius: 55 },
  { words: ['petg'], without: 'uncured acrylate', softensCelsius: 70 },
  { words: ['abs'], without: 'uncured acrylate', softensCelsius: 90 },
  { words: ['glass', 'glazed', 'porcelain', 'enamel'], glassy: true },
  { words: ['wax', 'beeswax', 'paraffin'], softensCelsius: 50 },
  {
    words: ['polystyrene', 'polystyrene foam', 'expanded polystyrene', 'eps', 'xps'],
    porous: true,
    dissolvedBy: 'styrene',
    softensCelsius: 70,
  },
  { words: ['metal', 'steel', 'iron', 'bronze', 'brass', 'aluminium', 'aluminum', 'acrylic', 'plastic', 'polyethylene'] },
  {
    words: ['shellac', 'lacquer', 'varnish', 'varnished', 'sealer', 'sealed', 'paint', 'painted', 'primer', 'primed'],
    sealed: true,
  },
  { words: ['waxed', 'release', 'released', 'petroleum jelly', 'soap', 'soaped', 'pva'], released: true },
];
