//! `cargo task serve`: the finished page on this machine, with the headers that a host should send.

mod files;
mod headers;
mod http;
mod lan;
mod packed;

use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};

use crate::arguments::Arguments;
use crate::build;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::setup;
use headers::HeaderRules;
use http::{Answer, Request, Server};
use packed::{Packed, packs};

const PORT: u16 = 8080;

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let lan = words.flag("--lan");
    let as_it_is = words.flag("--no-build");
    let port = words.value("--port")?.unwrap_or(PORT);
    let folder: Option<PathBuf> = words.value("--dist")?;
    words.finish()?;
    let project = Project::find()?;
    if !as_it_is && folder.is_none() {
        let tools = setup::for_build(&project)?;
        build::release(&project, &tools)?;
    }
    let host = if lan { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let server = Running::start(&folder.unwrap_or_else(|| project.dist()), SocketAddr::new(IpAddr::V4(host), port))?;
    say!("Serving {} at http://127.0.0.1:{}/  (Ctrl-C ends it)", server.folder.display(), server.port());
    if lan {
        lan::explain(server.port());
    }
    server.server.wait();
    Ok(())
}

/// A folder that is being served. Serving stops when this is dropped.
pub(crate) struct Running {
    folder: PathBuf,
    server: Server,
}

impl Running {
    /// Serves a folder; port 0 takes any that is free.
    pub(crate) fn start(folder: &Path, address: SocketAddr) -> Done<Self> {
        let step = format!("serving {}", folder.display());
        let folder = folder.canonicalize().map_err(|error| Failure::new(&step, error).by_hand("cargo task build"))?;
        let rules = HeaderRules::read(&folder.join("_headers"));
        let served = folder.clone();
        let server = {
            let packed = Packed::default();
            Server::start(address, move |request| answer(request, &served, &rules, &packed))
        };
        let server = server.map_err(|error| {
            Failure::new(&step, format!("{address}: {error}")).by_hand("take another port with --port")
        })?;
        Ok(Self { folder, server })
    }

    pub(crate) fn port(&self) -> u16 {
        self.server.port
    }
}

fn answer(request: &Request, folder: &Path, rules: &HeaderRules, packed: &Packed) -> Answer {
    let (method, path) = (request.method.as_str(), request.path.as_str());
    let text = |words: &str| ("text/plain; charset=utf-8", words.as_bytes().to_vec());
    let (status, (kind, body)) = match method {
        "GET" | "HEAD" => match files::find(folder, path) {
            Some(file) => ("200 OK", (file.kind, file.bytes)),
            None => ("404 Not Found", text("There is nothing here.\n")),
        },
        _ => ("405 Method Not Allowed", text("Only reading is possible here.\n")),
    };
    let (coding, body) = match request.takes_brotli && packs(kind) {
        true => (Some(("Content-Encoding", "br")), packed.of(body)),
        false => (None, body),
    };
    let own = [("Content-Type", kind), ("Vary", "Accept-Encoding")];
    let headers = own.into_iter().chain(coding).chain(rules.for_path(path));
    let headers = headers.map(|(name, value)| (name.to_owned(), value.to_owned())).collect();
    Answer { status, headers, body }
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};
    use std::net::TcpStream;

    use super::*;

    fn ask(port: u16, line: &str) -> String {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
        write!(stream, "{line} HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n").unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }

    #[test]
    fn a_folder_is_served_and_nothing_beside_it() {
        let folder = std::env::temp_dir().join(format!("hundred-parts-serve-{}", std::process::id()));
        std::fs::create_dir_all(folder.join("dist/assets")).unwrap();
        std::fs::write(folder.join("secret.txt"), "beside").unwrap();
        std::fs::write(folder.join("dist/index.html"), "shell").unwrap();
        std::fs::write(folder.join("dist/assets/a-0.wasm"), "\0asm").unwrap();
        std::fs::write(folder.join("dist/_headers"), include_str!("../../../../public/_headers")).unwrap();
        let server = Running::start(&folder.join("dist"), SocketAddr::from((Ipv4Addr::LOCALHOST, 0))).unwrap();

        let shell = ask(server.port(), "GET /?x=1");
        assert!(shell.starts_with("HTTP/1.1 200") && shell.ends_with("shell"), "{shell}");
        assert!(shell.contains("Cache-Control: no-cache") && shell.contains("frame-ancestors 'none'"), "{shell}");
        let program = ask(server.port(), "GET /assets/a-0.wasm");
        assert!(program.contains("Content-Type: application/wasm") && program.contains("immutable"), "{program}");
        for line in ["GET /../secret.txt", "GET /%2e%2e/secret.txt", "GET /..%2fsecret.txt", "GET /_headers"] {
            let answer = ask(server.port(), line);
            assert!(answer.starts_with("HTTP/1.1 404"), "{line}: {answer}");
        }
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, server.port())).unwrap();
        let head = "GET / HTTP/1.1\r\nAccept-Encoding: gzip, br;q=1\r\nConnection: close\r\n\r\n";
        stream.write_all(head.as_bytes()).unwrap();
        let mut packed = Vec::new();
        stream.read_to_end(&mut packed).unwrap();
        assert!(String::from_utf8_lossy(&packed).contains("Content-Encoding: br"), "as static hosts do");
        assert!(ask(server.port(), "POST /").starts_with("HTTP/1.1 405"));
        drop(server);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
