// Any shown figure as something to tap: it opens to how it was made. What is
// shown then is fetched with the first tap.
import type { ComponentChildren, ComponentType } from 'preact';
import { useState } from 'preact/hooks';
import { t } from './words';

export interface Which { of: string; id: string; figure: string }
/** known: workings that came with the answer; others are asked for. */
type Sheet = ComponentType<{ first: Which; known?: Which[] | undefined; onClose: () => void }>;

export function Opens({ of, id, figure, known, children }: Which & { known?: Which[]; children: ComponentChildren }) {
  const [shown, setShown] = useState<Sheet | null>(null);
  const open = () => {
    import('./howmade').then((m) => setShown(() => m.HowMade), () => {});
  };
  return (
    <>
      <button type="button" class="opens" onClick={open} title={t('how_made')} aria-haspopup="dialog"
        data-figure={`${of} ${id} ${figure}`}>{children}</button>
      {shown !== null && <ShownAs sheet={shown} first={{ of, id, figure }} known={known} onClose={() => setShown(null)} />}
    </>
  );
}
const ShownAs = ({ sheet: Of, first, known, onClose }: { sheet: Sheet; first: Which; known?: Which[] | undefined; onClose: () => void }) =>
  <Of first={first} known={known} onClose={onClose} />;
