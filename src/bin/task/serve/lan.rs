//! What to know when a tablet opens the page from this machine.

use std::net::UdpSocket;
use std::process::Command;

use crate::child;
use crate::say::say;

pub(super) fn explain(port: u16) {
    let addresses = addresses();
    if addresses.is_empty() {
        say!("No address of this machine in the local network was found.");
    }
    for address in addresses {
        say!("From other devices: http://{address}:{port}/");
    }
    say!(
        "There, without https, browsers give a page no offline copy, no installation and no clipboard: good for a look,\n\
         not for a batch. For real use put dist/ on any static host with https. On this machine itself all of it works."
    );
}

fn addresses() -> Vec<String> {
    let mut hostname = Command::new("hostname");
    hostname.arg("-I");
    let told = child::ask(hostname).unwrap_or_default();
    let found: Vec<String> = told.split_whitespace().filter(|word| !word.contains(':')).map(str::to_owned).collect();
    if found.is_empty() { outgoing().into_iter().collect() } else { found }
}

/// The address that this machine would use to reach another. Nothing is sent: a datagram socket only picks its way, and
/// the address is one that is reserved for examples.
fn outgoing() -> Option<String> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    socket.connect("192.0.2.1:9").ok()?;
    Some(socket.local_addr().ok()?.ip().to_string())
}
