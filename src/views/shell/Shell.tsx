import { Tabs } from '@base-ui-components/react/tabs';
import { type CSSProperties, lazy, type ReactNode, Suspense } from 'react';
import { ChecksPanel } from '../checks/index.ts';
import { useComfort } from '../comfort/index.ts';
import { Desk } from '../desk/index.ts';
import { FrameView } from '../frame/index.ts';
import { ReferenceBeside } from '../reference/index.ts';
import { useCameraView, useDocument, useServices } from '../session/index.ts';
import { NoticeStrip } from './NoticeStrip.tsx';
import { Quiet } from './Quiet.tsx';
import './shell.css';
import { TopBar } from './TopBar.tsx';
import { useRoom } from './useRoom.ts';
import { ViewBoundary } from './ViewBoundary.tsx';

const Stage = lazy(() => import('../stage/index.ts').then((module) => ({ default: module.Stage })));
const Drawing = lazy(() => import('../drawing/index.ts').then((module) => ({ default: module.Drawing })));
const Inspector = lazy(() => import('../inspector/index.ts').then((module) => ({ default: module.Inspector })));

interface Place {
  readonly key: string;
  readonly title: string;
  readonly body: ReactNode;
}

const FRAME: Place = { key: 'frame', title: 'Frame', body: <FrameView /> };
const STAGE: Place = { key: 'stage', title: 'Set', body: <StageWhereItCan /> };
const DRAWING: Place = { key: 'drawing', title: 'Drawing', body: <Drawing /> };
const DESK: Place = { key: 'desk', title: 'Light desk', body: <Desk /> };
const CHECKS: Place = { key: 'checks', title: 'Checks', body: <ChecksPanel /> };
const INSPECTOR: Place = { key: 'inspector', title: 'Inspector', body: <Inspector /> };

/** The whole window: the frame first, the set and its drawing beside it, the desk, checks and inspector under it. */
export function Shell() {
  const room = useRoom();
  // Drawn lengths are said when drawn: the set and its drawing are drawn anew when they are to be said otherwise.
  const lengths = useComfort((comfort) => comfort.lengths);
  const { tanHalfWidth, tanHalfHeight } = useCameraView();
  return (
    <div className="kg-shell" data-room={room}>
      <TopBar room={room} />
      <NoticeStrip />
      <main className="kg-floor" style={{ '--frame-aspect': tanHalfWidth / tanHalfHeight } as CSSProperties}>
        <section className="kg-place kg-place-frame" aria-label="Frame">
          <PlaceBody place={FRAME} />
        </section>
        <ReferenceBeside />
        {room === 'wide' ? (
          <>
            <div key={lengths} className="kg-side">
              <OpenPlace place={STAGE} />
              <OpenPlace place={DRAWING} />
            </div>
            <div className="kg-band">
              <OpenPlace place={DESK} />
              <OpenPlace place={CHECKS} />
              <OpenPlace place={INSPECTOR} />
            </div>
          </>
        ) : (
          <>
            <TabbedPlaces key={lengths} className="kg-side" label="Set and drawing" places={[DRAWING, STAGE]} />
            <TabbedPlaces className="kg-band" label="Desk, checks and inspector" places={[DESK, CHECKS, INSPECTOR]} />
          </>
        )}
      </main>
    </div>
  );
}

function StageWhereItCan() {
  if (useServices().webgl2) return <Stage />;
  return (
    <Quiet>
      This browser draws no 3D (WebGL 2), so the set cannot be walked round. The drawing and the traced frame work.
    </Quiet>
  );
}

function OpenPlace({ place }: { readonly place: Place }) {
  return (
    <section className={`kg-place kg-place-${place.key}`} aria-label={place.title}>
      <PlaceBody place={place} />
    </section>
  );
}

function TabbedPlaces(props: {
  readonly className: string;
  readonly label: string;
  readonly places: readonly Place[];
}) {
  return (
    <Tabs.Root className={`kg-tabbed ${props.className}`} defaultValue={props.places[0].key}>
      <Tabs.List className="kg-tabs" aria-label={props.label}>
        {props.places.map((place) => (
          <Tabs.Tab key={place.key} className="kg-tab" value={place.key}>
            {place.title}
          </Tabs.Tab>
        ))}
      </Tabs.List>
      {props.places.map((place) => (
        <Tabs.Panel key={place.key} className={`kg-place kg-place-${place.key}`} value={place.key}>
          <PlaceBody place={place} />
        </Tabs.Panel>
      ))}
    </Tabs.Root>
  );
}

function PlaceBody({ place }: { readonly place: Place }) {
  const revision = useDocument((state) => state.revision);
  return (
    <ViewBoundary title={place.title} resetKey={revision}>
      <Suspense fallback={<Quiet>{place.title} is coming up.</Quiet>}>{place.body}</Suspense>
    </ViewBoundary>
  );
}
