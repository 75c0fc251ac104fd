import area from '../../commands/area.ts';
import board from '../../commands/board.ts';
import calendar from '../../commands/calendar.ts';
import cast from '../../commands/cast.ts';
import check from '../../commands/check.ts';
import cup from '../../commands/cup.ts';
import cups from '../../commands/cups.ts';
import done from '../../commands/done.ts';
import fix from '../../commands/fix.ts';
import handover from '../../commands/handover.ts';
import help from '../../commands/help.ts';
import job from '../../commands/job.ts';
import laminate from '../../commands/laminate.ts';
import material from '../../commands/material.ts';
import missed from '../../commands/missed.ts';
import mix from '../../commands/mix.ts';
import plan from '../../commands/plan.ts';
import plaster from '../../commands/plaster.ts';
import recipe from '../../commands/recipe.ts';
import shift from '../../commands/shift.ts';
import shopping from '../../commands/shopping.ts';
import snooze from '../../commands/snooze.ts';
import studio from '../../commands/studio.ts';
import temp from '../../commands/temp.ts';
import undo from '../../commands/undo.ts';
import { registry } from '../chat/registry.ts';
import type { Desk } from '../desk/desk.ts';

/** Every command, in the order in which help lists them. A test compares it with the folder. */
export const commands = registry<Desk>([
  mix,
  fix,
  plaster,
  cast,
  laminate,
  area,
  job,
  done,
  check,
  missed,
  undo,
  cup,
  cups,
  shopping,
  snooze,
  handover,
  shift,
  temp,
  board,
  plan,
  calendar,
  material,
  recipe,
  studio,
  help,
]);
