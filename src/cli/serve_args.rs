//! The arguments of `serve`.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::Args;

/// Open a reading room: all of this as pages for a browser on this machine
#[derive(Debug, Args)]
#[command(
    after_help = "The room is for this machine alone: it listens on 127.0.0.1 and refuses pages of other sites. Changed files of a \
    corpus folder or notebook appear when a page is loaded again. Ctrl-C closes it.\n\n\
    Exit codes: 2 could not open\n\n\
    Examples:\n  kaoyi serve --open\n  kaoyi serve --port 0 --corpus my-corpus\n  kaoyi serve --listen 192.168.1.20 --let-others-read"
)]
pub(super) struct ServeArguments {
    /// Listen at this port; 0 lets the system choose a free one
    #[arg(long, value_name = "N", default_value_t = 15960)]
    pub port: u16,
    /// Open the browser too
    #[arg(long)]
    pub open: bool,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
    /// The notebook's folder; default: the variable KAOYI_NOTEBOOK, else the user's data folder
    #[arg(long, value_name = "DIR")]
    pub notebook: Option<PathBuf>,
    /// Listen at this address of the machine; any but a loopback one needs --let-others-read
    #[arg(long, value_name = "ADDR", default_value = "127.0.0.1")]
    pub listen: IpAddr,
    /// Let other machines of the network read all pages, your notebook included; nobody can write then, and nothing is encrypted
    #[arg(long)]
    pub let_others_read: bool,
    /// A name by which other machines call this one (can be repeated, or joined by commas)
    #[arg(
        long,
        value_name = "NAME",
        value_delimiter = ',',
        requires = "let_others_read"
    )]
    pub host: Vec<String>,
}
