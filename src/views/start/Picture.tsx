/** A picture of what one would begin with; a dark field where there is none yet. */
export function Picture({ src }: { readonly src: string | null | undefined }) {
  return <span className="kg-way-picture">{src && <img src={src} alt="" loading="lazy" draggable={false} />}</span>;
}
