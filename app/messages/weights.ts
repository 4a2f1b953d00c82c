/** The rows of the part's weight, and what each is called. */
export const WEIGHT_NAMES = {
  fibre: 'Fibre',
  resin: 'Resin in the plies',
  core: 'Core',
  coreResin: 'Resin taken by the core',
  closeout: 'Closeout',
  fairing: 'Fairing',
  routeFiller: 'Filler for this route',
  paint: 'Primer and paint',
} as const;
