// The house's answers by short names; their shapes are made from the contract (api_types.ts).
import type { components } from './api_types';

type All = components['schemas'];

export type House = All['House'];
export type BatchLine = House['batches'][number];
export type NextStep = All['NextStep'];
export type Batch = All['Batch'];
export type AccountStep = All['AccountStep'];
export type Note = All['Note'];
export type Told = All['Told'];
export type Run = All['Run'];
export type RunReading = All['RunReading'];
export type RunForecast = All['RunForecast'];
export type FermentForecast = All['FermentForecast'];
export type RunKind = All['RunKind'];
export type Decision = All['Decision'];
export type Doubt = All['Doubt'];
export type Jar = All['Jar'];
export type JarPoured = All['JarPoured'];
export type Poured = All['Poured'];
export type Vessel = All['Vessel'];
export type Cuts = All['Cuts'];
export type Lot = All['Lot'];
export type Lots = All['Lots'];
export type LotName = All['LotName'];
export type LotFigures = All['LotFigures'];
export type Plan = All['Plan'];
export type PlanFigure = All['figure'];
export type PlanFinding = Plan['findings'][number];
export type LegalClass = Plan['legal_classes']['classes'][number];
export type Solved = All['Solved'];
export type ChargeLeft = All['ChargeLeft'];
export type MashCorrection = All['MashCorrection'];
export type Gauged = All['Gauged'];
export type ReductionCheck = All['ReductionCheck'];
export type Gravity = All['Gravity'];
export type Tables = All['Tables'];
export type WoodForecasts = All['WoodForecasts'];
export type WoodForecast = NonNullable<WoodForecasts['lots'][number]['forecast']>;
export type LabelRule = Tables['label_rules'][number];
export type Devices = All['Devices'];
export type PairingOffer = All['PairingOffer'];
export type Examples = All['Examples'];
export type Example = Examples['examples'][number];

/** One lot of the house, as a key. */
export const lotKey = (lot: LotName): string => `${lot.entry} ${lot.kind}`;
