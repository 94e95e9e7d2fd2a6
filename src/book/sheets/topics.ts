/** What a sheet can be about: each topic of an author's sheets, and those that every reader may choose from. */
import { type Compiled, type Fit, fitOfAircraft } from '../../compile/index.ts';
import type { Fleet, SheetTopic } from '../../model/index.ts';
import { controlAddress, itemAddress } from '../addresses.ts';
import type { AttributeViews } from '../attributes.ts';
import type { Page } from '../book.ts';
import type { ProcedurePage, StageView } from '../book-procedures.ts';
import type { SheetTopicView } from '../book-sheets.ts';
import { baselineOf } from '../pages/aircraft.ts';
import { blocksOf, type ListSubject, type Subject } from './block.ts';
import { differenceSubjects, THIS } from './differences.ts';
import { classesInWords, fleetRows, legendRows, messageRows } from './lists.ts';
import { panelPositions, panelTables } from './panel.ts';
import { stageRows } from './stages.ts';
import { walkRound } from './walk-round.ts';

/** What topics are made out of: the tables and the pages that readers see on the screen. */
export interface Made {
  readonly compiled: Compiled;
  readonly views: AttributeViews;
  readonly pages: readonly Page[];
}

type WalkRound = Extract<SheetTopic, { kind: 'walk-round' }>;

/** A topic by its id: "panel-exterior-lights". */
export function topicId(topic: SheetTopic): string {
  const parts = (): readonly (string | undefined)[] => {
    switch (topic.kind) {
      case 'panel':
        return [
          topic.show === 'positions' ? 'positions' : 'panel',
          topic.panel,
          topic.abnormal ? 'abnormal' : undefined,
        ];
      case 'stages':
        return ['stages', topic.procedure, topic.panel];
      case 'messages':
        return ['messages', ...topic.classes];
      case 'differences':
        return ['differences', topic.from, topic.of];
      case 'device':
        return ['device', topic.device];
      case 'walk-round':
        return ['walk-round', topic.procedure, topic.stage];
      default:
        return [topic.kind];
    }
  };
  return parts()
    .filter((part) => part !== undefined)
    .join('-')
    .toLowerCase();
}

export function topicTitle({ fleet }: Compiled, topic: SheetTopic): string {
  const titleOf = (id: string): string =>
    [...fleet.panels, ...fleet.procedures].find((each) => each.id === id)?.title ?? id;
  const nameOf = (serial: string): string =>
    fleet.aircraft.find((each) => each.serial === serial)?.registration ?? serial;
  switch (topic.kind) {
    case 'panel':
      if (topic.show === 'positions') return `${titleOf(topic.panel)}: what each position does`;
      return topic.abnormal ? `${titleOf(topic.panel)}, with abnormal cases` : titleOf(topic.panel);
    case 'stages':
      return topic.panel === undefined
        ? titleOf(topic.procedure)
        : `${titleOf(topic.procedure)}: ${titleOf(topic.panel)}`;
    case 'legends':
      return 'Legends';
    case 'messages': {
      const words = classesInWords(topic.classes);
      return `Messages: ${words}`;
    }
    case 'differences':
      return topic.of === undefined
        ? `Differences from ${nameOf(topic.from)}`
        : `${nameOf(topic.of)} against ${nameOf(topic.from)}`;
    case 'device':
      return `What ${nameOf(topic.device)} does otherwise`;
    case 'walk-round':
      return topic.stage === undefined
        ? 'The lights from outside'
        : `The lights from outside: ${stageTitle(fleet, topic)}`;
    case 'fleet':
      return 'The fleet by option';
  }
}

/** What a topic is called among the choices of its group, whose title says the rest. */
export function choiceTitle(compiled: Compiled, topic: SheetTopic): string {
  if (topic.kind !== 'walk-round') return topicTitle(compiled, topic);
  return topic.stage === undefined ? 'Where they are' : stageTitle(compiled.fleet, topic);
}

/** Of several procedures it must be said which. */
function stageTitle({ procedures }: Fleet, { procedure, stage = '' }: WalkRound): string {
  const of = procedures.find(({ id }) => id === procedure);
  const title = of?.stages.find(({ id }) => id === stage)?.title ?? stage;
  return of && procedures.length > 1 ? `${title} (${of.title})` : title;
}

export function topicView(made: Made, topic: SheetTopic): SheetTopicView {
  const id = topicId(topic);
  return { id, title: topicTitle(made.compiled, topic), blocks: blocksOf(made.compiled, id, subjects(made, topic)) };
}

function subjects(made: Made, topic: SheetTopic): (Subject | ListSubject)[] {
  const { compiled, views, pages } = made;
  const { fleet, fits } = compiled;
  const pageOf = <K extends Page['kind']>(kind: K): Extract<Page, { kind: K }> | undefined =>
    pages.find((page): page is Extract<Page, { kind: K }> => page.kind === kind);
  const fitOf = (serial: string): Fit => fitOfAircraft(fits, serial);
  const nameOf = (serial: string): string =>
    fleet.aircraft.find((each) => each.serial === serial)?.registration ?? serial;
  switch (topic.kind) {
    case 'panel':
      return topic.show === 'positions'
        ? panelPositions(compiled, topic.panel)
        : panelTables(compiled, views, topic.panel, topic.abnormal);
    case 'stages': {
      const page = pages.find(
        (each): each is ProcedurePage => each.kind === 'procedure' && each.id === topic.procedure,
      );
      return page ? stageRows(page, topic.panel === undefined ? undefined : standingOn(compiled, topic.panel)) : [];
    }
    case 'legends': {
      const page = pageOf('legends');
      return page ? legendRows(page) : [];
    }
    case 'messages': {
      const page = pageOf('messages');
      return page ? messageRows(page, topic.classes) : [];
    }
    case 'differences': {
      const there = fitOf(topic.from);
      const names = { here: topic.of === undefined ? THIS : nameOf(topic.of), there: nameOf(topic.from) };
      const sides = (fit: Fit): readonly [Fit, Fit] | undefined => {
        const here = topic.of === undefined ? fit : fitOf(topic.of);
        return here === there ? undefined : [here, there];
      };
      return differenceSubjects(compiled, sides, names);
    }
    case 'device': {
      const here = fitOf(topic.device);
      const names = { here: nameOf(topic.device), there: THIS };
      return differenceSubjects(compiled, (fit) => (fit === here ? undefined : [here, fit]), names);
    }
    case 'walk-round':
      return walkRound(compiled, stageOf(pages, topic));
    case 'fleet': {
      const page = pageOf('fleet');
      return page ? fleetRows(page) : [];
    }
  }
}

/** The stage of a procedure that a walk-round is for. */
function stageOf(pages: readonly Page[], { procedure, stage }: WalkRound): StageView | undefined {
  const page = pages.find((each): each is ProcedurePage => each.kind === 'procedure' && each.id === procedure);
  return page?.stages.find(({ id }) => id === `stage-${stage}`);
}

/** Tells of an address whether it is that of a control or an item of a panel. */
function standingOn({ fleet }: Compiled, panel: string): (address: string) => boolean {
  const here = [
    ...fleet.controls.filter((each) => each.panel === panel).map(controlAddress),
    ...fleet.items.filter((each) => each.panel === panel).map(itemAddress),
  ];
  const known = new Set(here);
  return (address) => known.has(address);
}

/** What readers may choose from for sheets of their own, in groups; topics that would say nothing are left out later. */
export function choosable(compiled: Compiled): { readonly title: string; readonly topics: readonly SheetTopic[] }[] {
  const { fleet } = compiled;
  const devices = fleet.aircraft.filter(({ kind }) => kind === 'device');
  return [
    {
      title: 'Panels, in tables',
      topics: fleet.panels.map(({ id }) => ({ kind: 'panel', panel: id, show: 'tables', abnormal: false })),
    },
    {
      title: 'Panels, position by position',
      topics: fleet.panels.map(({ id }) => ({ kind: 'panel', panel: id, show: 'positions', abnormal: false })),
    },
    {
      title: 'Stage by stage',
      topics: fleet.procedures.flatMap(({ id }): SheetTopic[] => [
        { kind: 'stages', procedure: id },
        ...fleet.panels.map((panel): SheetTopic => ({ kind: 'stages', procedure: id, panel: panel.id })),
      ]),
    },
    {
      title: 'What is seen',
      topics: [
        { kind: 'legends' },
        { kind: 'messages', classes: ['warning', 'caution'] },
        { kind: 'messages', classes: ['advisory', 'reminder'] },
      ],
    },
    {
      title: 'The lights from outside, and what they do in a stage',
      topics: [
        { kind: 'walk-round' },
        ...fleet.procedures.flatMap(({ id: procedure, stages }) =>
          stages.map(({ id: stage }): SheetTopic => ({ kind: 'walk-round', procedure, stage })),
        ),
      ],
    },
    {
      title: 'Aircraft against aircraft',
      topics: [
        { kind: 'differences', from: baselineOf(compiled).serial },
        ...devices.map(({ serial }): SheetTopic => ({ kind: 'device', device: serial })),
        ...(fleet.options.length > 0 ? [{ kind: 'fleet' } as const] : []),
      ],
    },
  ];
}
