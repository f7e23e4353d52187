import type { ReactNode } from 'react';

/** A low sentence in the middle of an empty place. */
export function Quiet({ children }: { readonly children: ReactNode }) {
  return <p className="kg-empty">{children}</p>;
}
