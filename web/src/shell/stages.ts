// The stages, in their order, with the names used on every surface and their place in an address.
import { STAGES, type Stage } from '../data/entry';

export interface StageName {
  stage: Stage;
  name: string;
  slug: string;
}

export const stages: readonly StageName[] = STAGES.map((stage) => ({
  stage,
  name: stage.charAt(0).toUpperCase() + stage.slice(1),
  slug: stage.replace(' ', '-'),
}));

export const stageOf = (slug: string) => stages.find((s) => s.slug === slug);
