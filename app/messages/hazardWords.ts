/**
 * What is said of each hazard.
 *
 * Sources of the facts behind them: skin sensitisation by uncured epoxy: EU-OSHA OSHwiki
 * "Occupational exposure to epoxy resins" and HSE RR079; amine hardeners corrosive, pots that melt
 * cups and fume: resin makers' published safety pages; leftover mix in small lots, watched, in metal
 * cans: IMCA safety flash; hardener and sawdust self-heating: a resin maker's safety page; peroxide:
 * NIOSH PEL project 1338-23 (severe eye damage), never mixed with promoter: from memory; styrene
 * vapour burns (lower limit 0.9 %, flash point 31 C): OSHA occupational chemical database;
 * diisocyanates: Regulation (EU) 2020/1149, training before use above 0.1 %; carbon dust conducts:
 * from memory. The rest is common practice, no source.
 */
import type { Hazard } from '../document/schema.ts';

/** The caution of each hazard, most general first. */
export const HAZARD_CAUTIONS: Readonly<Record<Hazard, string>> = {
  'skin-sensitiser':
    'Uncured resin and hardener can make you allergic for life: nitrile gloves, sleeves, eye ' +
    'protection; change gloves when wet; soap and water on skin, never solvent.',
  corrosive: 'Hardener burns skin and eyes: goggles on to pour, eye wash within reach.',
  peroxide:
    'Peroxide catalyst blinds: goggles on. Never let it touch promoter directly; keep it cool, ' +
    'away from anything that burns.',
  styrene:
    'Styrene vapour burns and harms: extraction on, organic-vapour mask as the data sheet says, ' +
    'no flame, no sparks.',
  solvent: 'Solvent vapour burns: air the room, no flame or heater, rags into a closed metal bin.',
  dust: 'Dust: extraction at the tool, fitted particle mask, eye protection. Never sand what is still soft.',
  exotherm:
    'A full cup can melt, smoke and burn: spread it at once. A hot cup goes outside on concrete, ' +
    'no lid, nothing on top. No sawdust on spills.',
  lifting: 'Lift with enough people or a hoist; clear the way and agree the count first.',
  isocyanate:
    'Isocyanate paint harms the lungs at once: trained people only, air-fed mask, nobody else in ' +
    'the spray area.',
};

/** Beside that of dust, where carbon is laid. */
export const CARBON_DUST = 'Carbon dust conducts: keep it out of sockets and motors.';

/** What is done about each hazard, in the few words that can be read from three metres. */
const HAZARD_LEADS: Readonly<Record<Hazard, string>> = {
  'skin-sensitiser': 'Gloves, sleeves, eyes covered',
  corrosive: 'Goggles on to pour',
  peroxide: 'Goggles: peroxide blinds',
  styrene: 'Extraction on, no flame',
  solvent: 'Air the room, no flame',
  dust: 'Extraction, mask, eyes covered',
  exotherm: 'Spread a full cup at once',
  lifting: 'Enough people or a hoist',
  isocyanate: 'Trained people, air-fed mask',
};

/** A caution in few words: of a hazard those above, of any other its first clause. */
export function cautionLead(caution: string): string {
  const hazard = (Object.keys(HAZARD_LEADS) as Hazard[]).find(
    (one) => HAZARD_CAUTIONS[one] === caution,
  );
  return hazard === undefined ? (/^[^.:;]+/.exec(caution)?.[0] ?? caution) : HAZARD_LEADS[hazard];
}
