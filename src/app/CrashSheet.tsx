import { Component, type ReactNode } from 'react';

/** The last net: says what happened, and that the setup is kept. Each view has a net of its own under this one. */
export class CrashSheet extends Component<{ readonly children: ReactNode }, { readonly failure: Error | null }> {
  override state: { readonly failure: Error | null } = { failure: null };

  static getDerivedStateFromError(failure: Error) {
    return { failure };
  }

  override render() {
    if (this.state.failure === null) return this.props.children;
    return (
      <div className="kg-empty" role="alert">
        <p>Keyglass stopped. Your setup is kept in this browser.</p>
        <p className="kg-quiet">{this.state.failure.message}</p>
        <button type="button" className="kg-action" onClick={() => window.location.reload()}>
          Start again
        </button>
      </div>
    );
  }
}
